import type { GaugeStanding, GaugeStudy, StudyFault } from './gauge-study.ts';

/** What to say of a study that can't be worked out: what is wrong, where, and what to do. */
export const studyFaultText = (fault: StudyFault): string => {
  switch (fault.reason) {
    case 'too-few':
      return `A study needs at least ${fault.least} ${fault.of}.`;
    case 'missing-reading':
      return `Part ${fault.part} has no reading by ${fault.person} in trial ${fault.trial}: everybody measures every part in every trial.`;
    case 'read-twice':
      return `Part ${fault.part} has two readings by ${fault.person} in trial ${fault.trial}: strike one.`;
    case 'not-a-number':
      return `The reading of part ${fault.part} by ${fault.person} in trial ${fault.trial} is no number.`;
    case 'wrong-option':
      return fault.option === 'tolerance'
        ? 'The tolerance must be above nothing.'
        : 'The share above which the interaction is pooled lies between 0 and 1.';
  }
};

const standingWords: Readonly<Record<GaugeStanding, string>> = {
  fit: 'fit for it',
  'may do': 'may do where nothing better is at hand',
  'not fit': 'not fit for it',
};

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** A study in a few sentences; `printed` writes a figure of the study's unit. */
export const studyWords = (study: GaugeStudy & { readonly ok: true }, printed: (value: number) => string): string => {
  const { shares, distinct, standing, anova, people } = study;
  const of =
    shares.gauge.ofTolerance === null
      ? `${percent(shares.gauge.ofStudyVariation)} of the study variation`
      : `${percent(shares.gauge.ofTolerance)} of the tolerance`;
  const sizes = distinct === null ? '' : ` It tells ${distinct.categories} sizes of part apart.`;
  const pooled = anova.pooled ? ' Parts and people do not act on each other, so both scatters are pooled.' : '';
  const who =
    people === 1
      ? ' One person measured: what people differ by is not in it.'
      : ` Between people: ${printed(shares.reproducibility.sd)}.`;
  return `One reading repeats with a standard deviation of ${printed(shares.repeatability.sd)}.${who} The gauge takes ${of}: ${standingWords[standing]}.${sizes}${pooled}`;
};

const plainStanding: Readonly<Record<GaugeStanding, string>> = {
  fit: 'It is fit for this.',
  'may do': 'It may do for this.',
  'not fit': 'It is not fit for this.',
};

/** What the same readings come to by average and range, and why that is another figure. */
export const averageAndRangeSentence = ({
  shares,
  averageAndRange,
  people,
}: GaugeStudy & { readonly ok: true }): string => {
  const ofBoth = (share: { readonly ofTolerance: number | null; readonly ofStudyVariation: number }) =>
    percent(share.ofTolerance ?? share.ofStudyVariation);
  const other = ofBoth(averageAndRange.shares.gauge);
  const together = people < 2 ? '' : ', and can’t tell what people and parts do to each other from scatter';
  return `By average and range the gauge takes ${other}, by analysis of variance ${ofBoth(shares.gauge)}. Average and range takes only the widest difference of each few readings${together}; analysis of variance uses every reading, so what the study says rests on it.`;
};

/** What a study comes to, in one sentence and whether the gauge will do. */
export const studySentence = ({ shares, standing }: GaugeStudy & { readonly ok: true }): string => {
  const { ofTolerance, ofStudyVariation } = shares.gauge;
  const of =
    ofTolerance === null
      ? `${percent(ofStudyVariation)} of the variation seen`
      : `${percent(ofTolerance)} of the tolerance`;
  return `Gauge and people together take ${of}. ${plainStanding[standing]}`;
};
