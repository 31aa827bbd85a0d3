import type { ReactNode } from 'react';
import { Button, Disclosure, DisclosurePanel, Heading } from 'react-aria-components';
import { Icon } from './icon';

export interface PanelSectionProps {
  readonly title: string;
  /** Said beside the title while the section is folded. */
  readonly summary: ReactNode;
  readonly isOpen: boolean;
  readonly onToggle: (isOpen: boolean) => void;
  readonly children: ReactNode;
}

/** A foldable section of a side panel; folded, it still says what stands. */
export function PanelSection({ title, summary, isOpen, onToggle, children }: PanelSectionProps) {
  return (
    <Disclosure className="panel-section" isExpanded={isOpen} onExpandedChange={onToggle}>
      <Heading level={2} className="panel-heading">
        <Button slot="trigger" className="panel-trigger">
          <Icon name={isOpen ? 'down' : 'right'} />
          <span className="panel-title">{title}</span>
          {!isOpen && <span className="panel-summary">{summary}</span>}
        </Button>
      </Heading>
      <DisclosurePanel className="panel-body">{isOpen && children}</DisclosurePanel>
    </Disclosure>
  );
}
