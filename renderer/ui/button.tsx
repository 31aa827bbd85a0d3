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

export interface WithTooltipProps {
  readonly tip: ReactNode;
  /** Where there is room for it; above, unless said. */
  readonly placement?: 'top' | 'left';
  readonly children: ReactElement;
}

export function WithTooltip({ tip, placement = 'top', children }: WithTooltipProps) {
  return (
    <TooltipTrigger delay={500} closeDelay={100}>
      {children}
      <Tooltip className="tooltip" offset={placement === 'left' ? 16 : 6} placement={placement}>
        {tip}
      </Tooltip>
    </TooltipTrigger>
  );
}
