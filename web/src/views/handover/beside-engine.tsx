import { useQuery } from '@tanstack/react-query';
import { toHandOverQuery } from '../bench/hands-queries.ts';

/** Pieces that lie beside the engine in no tray: they go with it, and are counted with it. */
export function BesideEngine({ jobId, words }: { readonly jobId: string; readonly words: string }) {
  const pieces = useQuery(toHandOverQuery(jobId)).data?.besideEngine ?? [];
  if (pieces.length === 0) return null;
  return (
    <li>
      <p>{words}</p>
      <ul className="open-obligations">
        {pieces.map((name) => (
          <li key={name}>{name}</li>
        ))}
      </ul>
    </li>
  );
}
