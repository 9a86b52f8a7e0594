import { usualFaces } from '../../server/domain/build/ring-clock.ts';
import type { Method } from '../../server/domain/metrology/dimension.ts';
import { isoOf } from './clock.ts';
import { demoFamilies, type FamilyCode, familyCodes } from './families/families.ts';
import { addProcedure } from './procedure-rows.ts';
import { baseOf, type DimensionFigures, type SheetFigures } from './spec-sheet.ts';
import type { FamilyRow, World } from './world.ts';

const degreesOrNull = (degrees: number | undefined): number | null =>
  degrees === undefined ? null : baseOf(degrees, 'deg');

type Base = Pick<World, 'clock' | 'rows' | 'id' | 'origin' | 'people'>;

const source = 'invented for the demo';

/** Families with their sheets (published by insertAll's last step on them) and procedures. */
export function addFamilies(world: Base): ReadonlyMap<FamilyCode, FamilyRow> {
  const { rows, id, origin } = world;
  return new Map(
    familyCodes.map((code) => {
      const { figures, procedures } = demoFamilies[code];
      const familyId = id('family', origin);
      rows.add('family', {
        id: familyId,
        code,
        name: figures.name,
        cycle: figures.cycle,
        cooling: figures.cooling,
        bore_nm: baseOf(figures.boreMm, 'mm'),
        stroke_nm: baseOf(figures.strokeMm, 'mm'),
      });
      const revisions = figures.sheets.map((sheet, index) => {
        const revisionId = id('spec_revision', origin);
        rows.add('spec_revision', {
          id: revisionId,
          family_id: familyId,
          number: index + 1,
          note: sheet.note,
          figures_invented: true,
          ring_separation_udeg: baseOf(sheet.ringSeparationDegrees, 'deg'),
          rail_offset_udeg: degreesOrNull(sheet.railOffsetDegrees),
          drafted_by_id: world.people.get('maren') ?? '',
          drafted_at: isoOf(origin),
        });
        addSheet(world, revisionId, sheet);
        return { id: revisionId, sheet };
      });
      const row: FamilyRow = {
        id: familyId,
        code,
        name: figures.name,
        revisions,
        procedures: procedures.map((data) => addProcedure(world, familyId, data)),
      };
      return [code, row] as const;
    }),
  );
}

function addSheet(world: Base, revisionId: string, sheet: SheetFigures): void {
  const { rows, id, origin } = world;
  sheet.places.forEach((place, index) => {
    rows.add('spec_place', {
      id: id('spec_place', origin),
      revision_id: revisionId,
      code: place.code,
      name: place.name,
      ordinal: index + 1,
      layer: place.layer,
      material: place.material,
      alpha_ppb: place.alpha[0],
      alpha_u_ppb: place.alpha[1],
      plated: place.plated,
    });
  });
  sheet.dimensions.forEach((dimension, index) => {
    addDimension(world, { revisionId, dimension, ordinal: index + 1 });
  });
  addFasteners(world, revisionId, sheet);
  sheet.rings.forEach(({ code, name, degrees, part = 'compression', pinDegrees, mark = '' }, index) => {
    rows.add('spec_ring', {
      id: id('spec_ring', origin),
      revision_id: revisionId,
      code,
      name,
      ordinal: index + 1,
      angle_udeg: degreesOrNull(degrees),
      part,
      pin_udeg: degreesOrNull(pinDegrees),
      mark,
      faces: usualFaces(part),
    });
  });
  for (const { from, to, reason } of sheet.ringZones) {
    rows.add('spec_ring_zone', {
      id: id('spec_ring_zone', origin),
      revision_id: revisionId,
      from_udeg: baseOf(from, 'deg'),
      to_udeg: baseOf(to, 'deg'),
      reason,
    });
  }
  const mm = (value: number | undefined | null): number | null =>
    value === undefined || value === null ? null : baseOf(value, 'mm');
  sheet.valves.forEach((valve, index) => {
    rows.add('spec_valve', {
      id: id('spec_valve', origin),
      revision_id: revisionId,
      code: valve.code,
      name: valve.name,
      side: valve.side,
      ordinal: index + 1,
      dimension_code: `lash-${valve.code}`,
      wanted_nm: baseOf(valve.wantedMm, 'mm'),
      adjuster: valve.shim === null ? 'screw' : 'shim under bucket',
      shim_diameter_nm: mm(valve.shim?.diameterMm),
      shim_low_nm: mm(valve.shim?.lowMm),
      shim_high_nm: mm(valve.shim?.highMm),
      screw_pitch_nm: mm(valve.screwPitchMm),
    });
  });
  sheet.proofs.forEach(({ code, name, dimension, words, caution }, index) => {
    rows.add('spec_proof', {
      id: id('spec_proof', origin),
      revision_id: revisionId,
      code,
      name,
      ordinal: index + 1,
      dimension_code: dimension,
      words,
      caution,
    });
  });
}

const boreRule = (method: Method): string | null => ('rule' in method ? method.rule : null);

/**
 * What a sheet calls nominal, the middle of what is standard, and how far from it a figure can possibly lie. Where the
 * standard has one bound only, or the span would reach below nothing, the middle of what is possible stands for it.
 */
function possibleOf({
  plausible,
  limits,
}: DimensionFigures): { readonly nominal: number; readonly span: number } | undefined {
  if (plausible === undefined) return undefined;
  const [least, most] = plausible;
  const [low, high] = limits.standard?.standard ?? [null, null];
  if (low !== null && high !== null) {
    const nominal = (low + high) / 2;
    const span = Math.max(most - nominal, nominal - least);
    if (nominal - span > 0) return { nominal, span };
  }
  return { nominal: (least + most) / 2, span: (most - least) / 2 };
}

function addDimension(
  world: Base,
  at: { readonly revisionId: string; readonly dimension: DimensionFigures; readonly ordinal: number },
): void {
  const { rows, id, origin } = world;
  const { dimension } = at;
  const { method, unit } = dimension;
  const dimensionId = id('spec_dimension', origin);
  const base = (figure: number | null | undefined): number | null =>
    figure === null || figure === undefined ? null : baseOf(figure, unit);
  const possible = possibleOf(dimension);
  rows.add('spec_dimension', {
    id: dimensionId,
    revision_id: at.revisionId,
    code: dimension.code,
    name: dimension.name,
    ordinal: at.ordinal,
    place_code: dimension.place,
    kind: dimension.kind,
    unit,
    decimals: dimension.decimals,
    method: method.type,
    bore_rule: boreRule(method),
    readings_of: dimension.readingsOf ?? null,
    minuend: method.type === 'difference' ? method.minuend : null,
    subtrahend: method.type === 'difference' ? method.subtrahend : null,
    numerator: method.type === 'ratio' ? method.numerator : null,
    denominator: method.type === 'ratio' ? method.denominator : null,
    scale: method.type === 'ratio' ? (method.scale ?? null) : null,
    stated: method.type === 'stated' ? method.value : null,
    decision_rule: 'iso-14253-1-2017',
    inside: dimension.inside,
    nominal: base(possible?.nominal),
    plausible_span: base(possible?.span),
    instrument_kind: dimension.instrument,
    caution: dimension.caution,
    source,
    page: dimension.page,
  });
  dimension.positions.forEach((position, index) => {
    rows.add('spec_position', {
      id: id('spec_position', origin),
      dimension_id: dimensionId,
      code: position.code,
      label: position.label,
      ordinal: index + 1,
      level: position.level ?? null,
      axis: position.axis ?? null,
      height_nm: position.heightMm === undefined ? null : baseOf(position.heightMm, 'mm'),
    });
  });
  for (const [sizeClass, { standard, service }] of Object.entries(dimension.limits)) {
    rows.add('spec_limit', {
      id: id('spec_limit', origin),
      dimension_id: dimensionId,
      size_class: sizeClass,
      standard_low: base(standard[0]),
      standard_high: base(standard[1]),
      service_low: base(service[0]),
      service_high: base(service[1]),
    });
  }
}

function addFasteners(world: Base, revisionId: string, sheet: SheetFigures): void {
  const { rows, id, origin } = world;
  for (const set of sheet.fasteners) {
    const setId = id('spec_fastener_set', origin);
    rows.add('spec_fastener_set', {
      id: setId,
      revision_id: revisionId,
      code: set.code,
      name: set.name,
      thread: set.thread,
      property_class: set.propertyClass,
      condition: set.condition,
      tool: set.tool,
      reuse: set.reuse,
      order_is_makers: true,
      unit: 'N.m',
      source,
      page: set.page,
    });
    set.positions.forEach(([x, y], index) => {
      rows.add('spec_fastener', {
        id: id('spec_fastener', origin),
        set_id: setId,
        number: index + 1,
        x_nm: baseOf(x, 'mm'),
        y_nm: baseOf(y, 'mm'),
      });
    });
    set.stages.forEach((stage, index) => {
      rows.add('spec_fastener_stage', {
        id: id('spec_fastener_stage', origin),
        set_id: setId,
        ordinal: index + 1,
        torque_unm: 'newtonMetres' in stage ? baseOf(stage.newtonMetres, 'N.m') : null,
        angle_udeg: 'degrees' in stage ? baseOf(stage.degrees, 'deg') : null,
      });
    });
  }
}
