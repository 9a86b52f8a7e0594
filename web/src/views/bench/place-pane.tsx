import type { BenchInstrument } from '#contracts/bench.ts';
import type { SheetPosition } from '#contracts/specs.ts';
import { useMedia, useWall } from '../../app/use-media.ts';
import { levelName } from '../../drawings/bore-facts.ts';
import { PositionPicture } from '../../drawings/positions/position-picture.tsx';
import { type Format, useFormat } from '../../words/format.ts';
import { useWords, type Words } from '../../words/words.tsx';
import type { PlaceStanding, Taken } from './measuring.ts';
import { PlacePhotos, usePhotosAt } from './place-photos.tsx';
import { pictureOf } from './place-picture.ts';
import type { Measuring } from './use-measuring.ts';

export const takenText = (taken: readonly Taken[], format: Format): string =>
  taken.map(({ text }) => format.decimal(text)).join(', ');

/** "A across" where the drawing beside it letters the heights; else the place in words. */
const shortLabel = ({ level, axis, label }: SheetPosition): string =>
  level === null || axis === null ? label : `${levelName(level - 1)} ${axis}`;

function PlaceButton({ standing, measuring }: { readonly standing: PlaceStanding; readonly measuring: Measuring }) {
  const { measure } = useWords();
  const format = useFormat();
  const { position, taken } = standing;
  const active = measuring.place?.position.code === position.code;
  const passed = measuring.passedOver.has(position.code) && taken.length === 0;
  const note = taken.some(({ state }) => state === 'refused')
    ? measure.refused
    : taken.some(({ state }) => state === 'waiting')
      ? measure.waiting
      : passed
        ? measure.passedOver
        : '';
  const photos = usePhotosAt(measuring.bench.engineId, taken).length;
  const values = taken.length > 0 ? takenText(taken, format) : active ? measure.now : measure.nothing;
  return (
    <button
      type="button"
      className={active ? 'place active' : 'place'}
      aria-current={active ? 'step' : undefined}
      onClick={() => measuring.choose({ position: position.code })}
    >
      <span className="place-label">{shortLabel(position)}</span>
      <b className="num">{values}</b>
      {note === '' ? null : <span className="note">{note}</span>}
      {photos === 0 ? null : <span className="note">{measure.photos(photos)}</span>}
    </button>
  );
}

function gaugeWords(gauge: BenchInstrument | undefined, format: Format, { measure }: Words): string {
  const { gauge: words } = measure;
  if (gauge === undefined) return words.none;
  const { name, code, check } = gauge;
  const said =
    check === null
      ? words.neverChecked(name, code)
      : !check.today
        ? words.checkedBefore(name, code, format.since(check.checkedAt))
        : check.master === ''
          ? words.checkedTodayPlain(name, code, format.time(check.checkedAt))
          : words.checkedToday(name, code, check.master, format.time(check.checkedAt));
  const overdue =
    gauge.outOfCalibration && gauge.calibrationDue !== null
      ? ` ${words.overdue(format.day(gauge.calibrationDue))}`
      : '';
  // Blades are wiped and tapped; a gauge that shows a figure may type it.
  return `${said}${overdue} ${gauge.blades.length > 0 ? words.wipeBlades : words.typesHere}`;
}

/** Drawn smaller on a low screen, never so small that its lettering can't be read. */
const shortWidth = { bore: 408, piston: 380, flatness: 390, 'ring-gap': 380, pin: 420 } as const;

/** Where the reading is taken, with what was read so far; a tap on a place asks for it again. */
export function PlacePane({ measuring, phone }: { readonly measuring: Measuring; readonly phone: boolean }) {
  const words = useWords();
  const format = useFormat();
  const { dimension, standings, place, instrument } = measuring;
  const picture = pictureOf(dimension, standings, place);
  const tall = useMedia('(min-height: 940px)');
  const wall = useWall();
  const felt = dimension.method === 'felt';
  return (
    <section className="where" aria-label={words.measure.positions}>
      {picture === null || (phone && (picture.kind !== 'bore' || picture.active === null)) ? null : (
        <PositionPicture
          facts={picture}
          cropped={phone}
          decimals={dimension.decimals}
          format={format.number}
          {...(phone ? { width: 360 } : tall || wall ? {} : { width: shortWidth[picture.kind] })}
        />
      )}
      {standings.length < 2 ? null : (
        <div className={standings.every(({ position }) => position.axis !== null) ? 'places of-three' : 'places'}>
          {standings.map((standing) => (
            <PlaceButton key={standing.position.code} standing={standing} measuring={measuring} />
          ))}
        </div>
      )}
      {dimension.caution === '' ? null : <p className="caution">{dimension.caution}</p>}
      {felt ? null : <p className="note gauge-note">{gaugeWords(instrument, format, words)}</p>}
      <PlacePhotos measuring={measuring} />
    </section>
  );
}
