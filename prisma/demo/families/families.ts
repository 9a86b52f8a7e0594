import { fourStrokeProcedures } from '../procedures/four-stroke.ts';
import type { ProcedureData } from '../procedures/procedure.ts';
import { twoStrokeProcedures } from '../procedures/two-stroke.ts';
import type { FamilyFigures } from '../spec-sheet.ts';
import { halden355 } from './halden-355.ts';
import { halden388 } from './halden-388.ts';
import { ostrel125T } from './ostrel-125-t.ts';
import { torvik615 } from './torvik-615.ts';

export const familyCodes = ['H355', 'H388', 'O125', 'T615'] as const;
export type FamilyCode = (typeof familyCodes)[number];

export const demoFamilies: Readonly<
  Record<FamilyCode, { readonly figures: FamilyFigures; readonly procedures: readonly ProcedureData[] }>
> = {
  H355: {
    figures: halden355,
    procedures: fourStrokeProcedures({ code: 'H355', name: 'Halden 355', adjuster: 'shim', cooling: 'water' }),
  },
  H388: {
    figures: halden388,
    procedures: fourStrokeProcedures({ code: 'H388', name: 'Halden 388', adjuster: 'shim', cooling: 'water' }),
  },
  O125: { figures: ostrel125T, procedures: twoStrokeProcedures },
  T615: {
    figures: torvik615,
    procedures: fourStrokeProcedures({ code: 'T615', name: 'Torvik 615', adjuster: 'screw', cooling: 'air' }),
  },
};
