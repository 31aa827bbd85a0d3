import { Component, type ReactNode } from 'react';

export interface ErrorBoundaryProps {
  readonly children: ReactNode;
  /** When it changes, what failed is tried again. */
  readonly resetKey: unknown;
  readonly renderFault: (message: string, retry: () => void) => ReactNode;
}

interface State {
  readonly fault: string | null;
  readonly resetKey: unknown;
}

/** Keeps a fault in one view from taking the plan and the other views away. */
export class ErrorBoundary extends Component<ErrorBoundaryProps, State> {
  override state: State = { fault: null, resetKey: this.props.resetKey };

  static getDerivedStateFromError(error: unknown): Partial<State> {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  static getDerivedStateFromProps(props: ErrorBoundaryProps, state: State): Partial<State> | null {
    return props.resetKey === state.resetKey ? null : { fault: null, resetKey: props.resetKey };
  }

  override render(): ReactNode {
    const { fault } = this.state;
    return fault === null ? this.props.children : this.props.renderFault(fault, () => this.setState({ fault: null }));
  }
}
