import type { CrossCheck } from '#contracts/findings.ts';
import type { Preview } from '#contracts/readings.ts';

/** One measurement held against another: what disagrees stands out, what agrees is told quietly. */
export function CrossChecks({ checks }: { readonly checks: readonly CrossCheck[] }) {
  return checks
    .toSorted((a, b) => Number(a.agrees) - Number(b.agrees))
    .map(({ agrees, words }) => (
      <p key={words} className={agrees ? 'note' : 'hot'} {...(agrees ? {} : { role: 'alert' })}>
        {words}
      </p>
    ));
}

/** What else is said of the figures while they are keyed. */
export function ChecksSaid({ preview }: { readonly preview: Preview | undefined }) {
  if (preview === undefined) return null;
  return (
    <>
      <CrossChecks checks={preview.crossChecks} />
      {preview.warnings.map((warning) => (
        <p key={warning} className="note">
          {warning}
        </p>
      ))}
    </>
  );
}
