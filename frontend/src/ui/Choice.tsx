/** Segmented control: one of a few, side by side. */
interface Props<T extends string> {
  name: string;
  labels: Record<T, string>;
  value: T;
  onPick: (value: T) => void;
}

export function Choice<T extends string>({ name, labels, value, onPick }: Props<T>) {
  return (
    <div class="segments">
      {(Object.keys(labels) as T[]).map((one) => (
        <button
          type="button"
          key={one}
          aria-pressed={one === value}
          data-testid={`${name}-${one}`}
          onClick={() => onPick(one)}
        >
          {labels[one]}
        </button>
      ))}
    </div>
  );
}
