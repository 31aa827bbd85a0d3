import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import type { Figure } from '../../shared/engine/figure';
import { formatQuantity } from '../../shared/units/quantity';
import { usePlan, useShop } from '../state/hooks';
import { WhyView } from '../ui/why';

/** A figure in a list of facts; pressing it opens its workings. */
export function FigureButton({ name, figure, figureKey }: { name: string; figure: Figure | null; figureKey: string }) {
  const { units } = usePlan();
  const { currency } = useShop();
  const value = figure === null ? '—' : formatQuantity(figure.value, figure.kind, units, { currency });
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {figure === null ? (
          value
        ) : (
          <DialogTrigger>
            <Button className="figure-button" aria-label={`${name}: ${value}. Workings`}>
              <span data-figure={figureKey} data-value={figure.value}>
                {value}
              </span>
            </Button>
            <Popover className="popover why-popover" placement="bottom">
              <Dialog aria-label={`Workings of ${name}`}>
                <WhyView title={name} value={value} why={figure.why} units={units} currency={currency} />
              </Dialog>
            </Popover>
          </DialogTrigger>
        )}
      </dd>
    </div>
  );
}
