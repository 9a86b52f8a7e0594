import { useWords } from '../../words/words.tsx';
import { SelectField, TextField } from '../specs/form-fields.tsx';
import { ListEditor } from './list-editor.tsx';
import type { WrittenStep } from './written-step.ts';

const layers = ['cover', 'head', 'cylinder', 'case'] as const;
const counted = (text: string, most: number): number =>
  Math.min(most, Math.max(1, Number.parseInt(text.replace(/\D/g, ''), 10) || 1));

interface PieceFieldsProps {
  readonly step: WrittenStep;
  readonly set: (part: Partial<WrittenStep>) => void;
}

/** What comes off and is counted, and what is put in. */
export function PieceFields({ step, set }: PieceFieldsProps) {
  const { edit: words, layers: layerWords } = useWords().procedures;
  return (
    <>
      <ListEditor<WrittenStep['pieces'][number]>
        title={words.pieces}
        hint={words.piecesHint}
        items={step.pieces}
        fresh={{ name: '', expected: 1, from: '', why: '', layer: null, oneTime: false, matchedSet: null }}
        onChange={(pieces) => set({ pieces: [...pieces] })}
        row={(piece, change) => (
          <>
            <TextField label={words.piece} value={piece.name} onChange={(name) => change({ ...piece, name })} />
            <TextField
              label={words.expected}
              value={String(piece.expected)}
              onChange={(text) => change({ ...piece, expected: counted(text, 999) })}
            />
            <TextField label={words.from} value={piece.from} onChange={(from) => change({ ...piece, from })} />
            <TextField label={words.why} value={piece.why} onChange={(why) => change({ ...piece, why })} />
            <SelectField
              label={words.layer}
              value={piece.layer ?? ''}
              none={words.noLayer}
              options={layers.map((layer) => [layer, layerWords[layer]] as const)}
              onChange={(layer) => change({ ...piece, layer })}
            />
            <TextField
              label={words.matchedSet}
              value={piece.matchedSet ?? ''}
              onChange={(text) => change({ ...piece, matchedSet: text.trim() === '' ? null : text })}
            />
            <label className="tick">
              <input
                type="checkbox"
                checked={piece.oneTime}
                onChange={({ target }) => change({ ...piece, oneTime: target.checked })}
              />
              {words.oneTime}
            </label>
          </>
        )}
      />
      <ListEditor
        title={words.putIn}
        hint={words.putInHint}
        items={step.putIn}
        fresh={{ name: 'Rag', count: 1, where: '' }}
        onChange={(putIn) => set({ putIn: [...putIn] })}
        row={(item, change) => (
          <>
            <TextField label={words.putInWhat} value={item.name} onChange={(name) => change({ ...item, name })} />
            <TextField
              label={words.putInCount}
              value={String(item.count)}
              onChange={(text) => change({ ...item, count: counted(text, 99) })}
            />
            <TextField label={words.putInWhere} value={item.where} onChange={(where) => change({ ...item, where })} />
          </>
        )}
      />
    </>
  );
}
