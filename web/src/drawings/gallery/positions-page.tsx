import { PositionPicture } from '../positions/position-picture.tsx';

const levels = [
  { height: 10, across: 88.048, along: 88.039 },
  { height: 40, across: 88.041, along: 88.034 },
  { height: 65, across: 88.031, along: null },
];

export function PositionsPage() {
  return (
    <section>
      <h2>Where the reading is taken</h2>
      <div className="row top-aligned">
        <PositionPicture facts={{ kind: 'bore', levels, active: { level: 0, axis: 'across' }, barrelDepth: 82 }} />
        <PositionPicture
          facts={{ kind: 'bore', levels, active: { level: 2, axis: 'along' }, barrelDepth: 82 }}
          width={320}
        />
        <PositionPicture
          cropped
          width={340}
          facts={{ kind: 'bore', levels, active: { level: 0, axis: 'across' }, barrelDepth: 82 }}
        />
        <PositionPicture facts={{ kind: 'piston', heightAboveSkirt: 12, value: null, active: true }} />
        <PositionPicture
          facts={{ kind: 'flatness', lines: [0.02, 0.03, null, null, null, null], active: 2 }}
          decimals={2}
        />
        <PositionPicture facts={{ kind: 'ring-gap', depth: 15, value: null, active: true }} />
        <PositionPicture
          facts={{
            kind: 'pin',
            places: [
              { name: 'boss left', value: 19.996 },
              { name: 'small end', value: null },
              { name: 'boss right', value: null },
            ],
            active: 1,
          }}
        />
      </div>
    </section>
  );
}
