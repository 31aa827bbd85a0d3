import type { ReactElement, ReactNode } from 'react';
import {
  Button as AriaButton,
  type ButtonProps as AriaButtonProps,
  Tooltip,
  TooltipTrigger,
} from 'react-aria-components';
import { Icon, type IconName } from './icon';

export interface ButtonProps extends Omit<AriaButtonProps, 'className' | 'children'> {
  readonly look?: 'plain' | 'primary' | 'quiet' | 'danger';
  readonly children: ReactNode;
  readonly className?: string;
}

export function Button({ look = 'plain', className = '', ...props }: ButtonProps) {
  return <AriaButton {...props} className={`button is-${look} ${className}`} />;
}

export interface IconButtonProps extends Omit<AriaButtonProps, 'className' | 'children' | 'aria-label'> {
  readonly icon: IconName;
  /** What it does: its name to a screen reader and its tooltip. */
  readonly label: string;
  /** More for the tooltip, such as the key. */
  readonly hint?: string;
}

export function IconButton({ icon, label, hint, ...props }: IconButtonProps) {
  return (
    <WithTooltip tip={hint === undefined ? label : `${label}  ${hint}`}>
      <AriaButton {...props} aria-label={label} className="icon-button">
        <Icon name={icon} />
      </AriaButton>
    </WithTooltip>
  );
}

export function WithTooltip({ tip, children }: { tip: ReactNode; children: ReactElement }) {
  return (
    <TooltipTrigger delay={500} closeDelay={100}>
      {children}
      <Tooltip className="tooltip" offset={6}>
        {tip}
      </Tooltip>
    </TooltipTrigger>
  );
}
