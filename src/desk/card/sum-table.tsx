import type { ReactNode } from 'react';

/** One line of a sum: what it is, and how much. */
interface Line {
  readonly label: string;
  readonly shown: string;
}

/**
 * A sum in a place of one height, so that nothing round it moves when it gets more lines or fewer: the totals stay at its
 * head, and the lines below them are scrolled.
 */
export function SumTable<L extends Line>({
  caption,
  lines,
  name,
  totals,
  children,
}: {
  caption: string;
  lines: readonly L[];
  /** How a line is named; by its label alone where it is left out. */
  name?(line: L): ReactNode;
  /** What it comes to, and what follows from that. */
  totals: readonly Line[];
  /** What is to be said of it, after the lines. */
  children?: ReactNode;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what is scrolled must be reached from the keyboard
    <section className="sum-place" aria-label={caption} tabIndex={0}>
      {/* Another sum takes the place of the last one as a whole, so that none of its lines or figures wander. */}
      <div key={[...totals, ...lines].map(({ label, shown }) => `${label} ${shown}`).join('\n')}>
        <table className="sum">
          <caption className="unseen">{caption}</caption>
          <thead>
            {totals.map(({ label, shown }, i) => (
              <tr key={label} className={i === 0 ? 'sum-total' : ''}>
                <th scope="row">{label}</th>
                <td>{shown}</td>
              </tr>
            ))}
          </thead>
          <tbody>
            {lines.map((line, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the lines are a sum in order, without names of their own
              <tr key={i}>
                <th scope="row">{name ? name(line) : line.label}</th>
                <td>{line.shown}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {children}
      </div>
    </section>
  );
}
