import type { ReactNode } from 'react';

/** The head of a card: its symbol, and what it is. */
export function CardHead({
  picture,
  title,
  below,
}: {
  picture?: ReactNode;
  title: string;
  below?: ReactNode;
}) {
  return (
    <header className="card-head">
      {picture ? <span className="card-picture">{picture}</span> : null}
      <div className="grow">
        <h2 className="card-title">{title}</h2>
        {below ? <p className="card-below">{below}</p> : null}
      </div>
    </header>
  );
}
