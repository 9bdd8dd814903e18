import type { ReactNode } from 'react';

/** One line of a sum: what it is, and how much. */
interface Line {
  readonly label: string;
  readonly shown: string;
}

/** A sum in its lines, the total under them, and what follows from the total under that. */
export function SumTable<L extends Line>({
  caption,
  lines,
  name,
  total,
  below = [],
}: {
  caption: string;
  lines: readonly L[];
  /** How a line is named; by its label alone where it is left out. */
  name?(line: L): ReactNode;
  total: Line;
  below?: readonly Line[];
}) {
  return (
    <table className="sum">
      <caption className="unseen">{caption}</caption>
      <tbody>
        {lines.map((line, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the lines are a sum in order, without names of their own
          <tr key={i}>
            <th scope="row">{name ? name(line) : line.label}</th>
            <td>{line.shown}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr className="sum-total">
          <th scope="row">{total.label}</th>
          <td>{total.shown}</td>
        </tr>
        {below.map(({ label, shown }) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td>{shown}</td>
          </tr>
        ))}
      </tfoot>
    </table>
  );
}
