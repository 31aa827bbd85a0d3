import { Component, type ReactNode } from 'react';

export interface Fault {
  readonly message: string;
  /** Where in the program it happened, for whoever mends it. */
  readonly trace: string;
}

export interface ErrorBoundaryProps {
  readonly children: ReactNode;
  /** When it changes, what failed is tried again. */
  readonly resetKey: unknown;
  readonly renderFault: (fault: Fault, retry: () => void) => ReactNode;
}

interface State {
  readonly fault: Fault | null;
  readonly resetKey: unknown;
}

/** Keeps a fault in one view from taking the plan and the other views away. */
export class ErrorBoundary extends Component<ErrorBoundaryProps, State> {
  override state: State = { fault: null, resetKey: this.props.resetKey };

  static getDerivedStateFromError(error: unknown): Partial<State> {
    if (!(error instanceof Error)) return { fault: { message: String(error), trace: '' } };
    return { fault: { message: error.message, trace: error.stack ?? '' } };
  }

  static getDerivedStateFromProps(props: ErrorBoundaryProps, state: State): Partial<State> | null {
    return props.resetKey === state.resetKey ? null : { fault: null, resetKey: props.resetKey };
  }

  override render(): ReactNode {
    const { fault } = this.state;
    return fault === null ? this.props.children : this.props.renderFault(fault, () => this.setState({ fault: null }));
  }
}
