import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { DraftMade } from '#contracts/procedure-documents.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { familiesQuery } from '../counter/counter-queries.ts';
import { SelectField, TextField } from '../specs/form-fields.tsx';

const kinds = ['strip', 'assemble', 'prove'] as const;

/** Code, name, kind and family: they begin a procedure; its first draft is empty. */
export function NewProcedureDialog({ onClose }: { readonly onClose: () => void }) {
  const { procedures: words } = useWords();
  const families = useQuery(familiesQuery).data?.items ?? [];
  const navigate = useNavigate();
  const writing = useWrite<DraftMade>();
  const [code, setCode] = useState('');
  const [name, setName] = useState('');
  const [kind, setKind] = useState<(typeof kinds)[number]>('strip');
  const [familyId, setFamilyId] = useState<string | null>(null);
  return (
    <Dialog title={words.begin.title} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          writing.write(
            { path: '/procedures', body: { code: code.trim(), name: name.trim(), kind, familyId } },
            ({ id }) => void navigate({ to: '/procedures/$versionId', params: { versionId: id } }),
          );
        }}
      >
        <SelectField
          label={words.begin.family}
          value={familyId ?? ''}
          none={words.begin.choose}
          options={families.map((family) => [family.id, family.name] as const)}
          onChange={setFamilyId}
        />
        <SelectField
          label={words.begin.kind}
          value={kind}
          options={kinds.map((each) => [each, words.kinds[each]] as const)}
          onChange={(chosen) => setKind(chosen ?? 'strip')}
        />
        <TextField label={words.begin.code} hint={words.begin.codeHint} value={code} required onChange={setCode} />
        <TextField label={words.begin.name} value={name} required onChange={setName} />
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={writing.busy || familyId === null}>
            {words.begin.go}
          </Button>
          <Button onClick={onClose}>{words.cancel}</Button>
        </div>
      </form>
    </Dialog>
  );
}
