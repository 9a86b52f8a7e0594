import { caution, type FourStrokeWork, piece, pulledThrough, type StepData, step } from './procedure.ts';

const adjusters = (adjuster: FourStrokeWork['adjuster']): StepData =>
  adjuster === 'shim'
    ? step(
        'Buckets and shims out',
        'With a magnet, one valve at a time, each laid in the board in the place of its valve. Look under every bucket: the shim may stick to the spring seat.',
        {
          tray: 'valve train',
          photo: 'The board with all four in their places',
          pieces: [
            piece('Bucket', 4, 'head', { matchedSet: 'buckets by valve', why: 'runs in its own bore' }),
            piece('Shim', 4, 'under the buckets', {
              matchedSet: 'shims by valve',
              why: 'one a valve, its place decides the lash',
            }),
          ],
        },
      )
    : step('Rockers out', 'Shafts out by their threaded ends, rockers and screws kept by valve.', {
        fastenerSet: 'adjuster-nuts',
        tray: 'valve train',
        cautions: [
          pulledThrough,
          caution(
            'springs under load',
            'A rocker may still stand under a valve spring: turn the crank until its valve is shut.',
          ),
        ],
        photo: 'Rockers laid out by valve',
        pieces: [
          piece('Rocker', 4, 'head', { matchedSet: 'rockers by valve', why: 'worn in with its cam' }),
          piece('Rocker shaft', 2, 'head', { why: 'intake and exhaust differ' }),
          piece('Adjusting screw', 4, 'rockers', { matchedSet: 'screws by valve', why: 'one a rocker' }),
          piece('Adjusting screw nut', 4, 'rockers', { why: 'one a screw' }),
        ],
      });

export const camsOut = (adjuster: FourStrokeWork['adjuster']): readonly StepData[] => [
  step(
    'Tensioner out, chain hung',
    'Centre bolt of the tensioner slackened first, then its two bolts. The chain is hung on a wire: it must not fall into the case.',
    {
      fastenerSet: 'tensioner-bolts',
      cautions: [
        caution(
          'springs under load',
          'The tensioner springs out: press it home while the bolts come out, eye protection.',
        ),
      ],
      pieces: [
        piece('Tensioner', 1, 'cylinder, rear'),
        piece('Tensioner bolt', 2, 'tensioner', { why: 'two hold a spring back' }),
        piece('Tensioner gasket', 1, 'tensioner', { oneTime: true }),
      ],
      putIn: [{ name: 'Rag', count: 1, where: 'chain tunnel' }],
    },
  ),
  step(
    'Cams out',
    'Caps loosened in a criss-cross, a quarter turn at a time, until the springs push no more; caps with their dowels kept by place and direction.',
    {
      cautions: [
        caution('springs under load', 'The valve springs push on the cams: never one cap at a time.'),
        caution('damage', 'Caps loosened unevenly crack, and caps, cams and head are one set.'),
      ],
      fastenerSet: 'cam-caps',
      tray: 'valve train',
      photo: 'Marks on the caps: place and direction',
      pieces: [
        piece('Cam cap', 4, 'head', { matchedSet: 'head and cam caps', why: 'bored with this head' }),
        piece('Cam cap bolt', 8, 'cam caps', { why: 'two a cap' }),
        piece('Cam cap dowel', 8, 'cam caps or head', { why: 'two a cap, each may stay in either part' }),
        piece('Locating half-ring', 2, 'cam bearings', { why: 'one a cam; it lies loose in its groove' }),
        piece('Camshaft', 2, 'head', { why: 'intake and exhaust, by their marks' }),
      ],
    },
  ),
  adjusters(adjuster),
];
