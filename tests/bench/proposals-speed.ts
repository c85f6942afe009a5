/** How fast whole primaries and whole headers are proposed. */

import { applyEdit } from '../../core/edits/apply-edit.ts';
import type { Header, Obstacle } from '../../core/header/header.ts';
import { headerClearances } from '../../core/path/clearance/header-clearances.ts';
import { pointAt, tracePrimary } from '../../core/path/trace-primary.ts';
import { add, scale, unit, type Vector } from '../../core/path/vector.ts';
import { shortestTwoBends } from '../../core/propose/few/all-two-bends.ts';
import { shapeLengthMm } from '../../core/propose/joints/tube-shape.ts';
import { ProposalSearch, proposePrimaries } from '../../core/propose/propose-primaries.ts';
import type { WantedLength } from '../../core/propose/question.ts';
import { proposeHeader } from '../../core/propose/whole/propose-header.ts';
import { millimetres, mmOf } from '../../core/units/length.ts';
import { foundValue, poseAt, randomDirection, seededRandom } from '../core/path/made-primaries.ts';
import { bankOfEight, randomBank } from '../core/propose/made-banks.ts';
import { CLRS, endsOf, headerWith, type PosePair, SOURCES } from '../core/propose/made-poses.ts';
import { onCpu } from '../cpu-time.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { calibrate, threadCpuMs } from './calibration.ts';

const MEDIAN_GOAL_MS = 5;
const TAIL_GOAL_MS = 60;
const FIRST_GOAL_MS = 150;
const BANK_GOAL_S = 5;
const EIGHT_GOAL_S = 30;
/** In 57 of 60 banks all primaries are placed. */
const PLACED_GOAL_PERCENT = 95;

type Random = () => number;

const about = (lengthMm: number): WantedLength => ({ kind: 'about', lengthMm, minusMm: 3.175, plusMm: 3.175 });

function within(goal: number, measured: Pick<Measure, 'id' | 'what' | 'unit'> & { readonly value: number }): Measure {
  return { ...measured, goal: `< ${goal.toFixed(1)}`, ok: measured.value < goal };
}

/** The least with two bends of these CLRs; null where there is none. */
function leastOf(pair: PosePair): number | null {
  const least = { firstMm: 12.7, betweenMm: 12.7, lastMm: 12.7 };
  const clrsMm = CLRS.map(mmOf);
  const lengths = clrsMm.flatMap((first) =>
    clrsMm.flatMap((second) => {
      const shape = shortestTwoBends({ ends: endsOf(pair), clrsMm: [first, second], least });
      return shape === null ? [] : [shapeLengthMm(shape)];
    }),
  );
  return lengths.length === 0 ? null : Math.min(...lengths);
}

/** One primary, header-like and anywhere in turn, at 5 to 40 % over its least; of those without a tube of two bends another pair is drawn. */
function lonelyQuestion(random: Random, run: number): { readonly header: Header; readonly length: WantedLength } {
  for (;;) {
    const pair = SOURCES[run % 2 === 0 ? 'headerLike' : 'anywhere'](random);
    const leastMm = leastOf(pair);
    const over = 1.05 + 0.35 * random();
    if (leastMm !== null) return { header: headerWith(pair), length: about(leastMm * over) };
  }
}

const OBSTACLES = 10;
/** Obstacles stand so far from the centreline of some tube, mm. */
const FROM_MM = 45;
const TO_MM = 150;

/** A rod or a box beside some tube of the header. */
function obstacleBeside(header: Header, random: Random, id: string): Obstacle {
  const primary = header.primaries[Math.floor(random() * header.primaries.length)];
  if (primary === undefined) throw new Error('no primary');
  const { spans } = foundValue(tracePrimary(primary, primary.port));
  const span = spans[Math.floor(random() * spans.length)];
  if (span === undefined) throw new Error('no piece');
  const off = scale(unit(randomDirection(random)), FROM_MM + (TO_MM - FROM_MM) * random());
  const at = add(pointAt(span, random()), off);
  const other = add(at, scale(unit(randomDirection(random)), 30 + 120 * random()));
  const [from, to] = [placeAt(at), placeAt(other)];
  return random() < 0.5
    ? { kind: 'cylinder', id, name: id, from, to, diameter: millimetres(15 + 35 * random()) }
    : { kind: 'box', id, name: id, corner: from, opposite: to };
}

function placeAt(at: Vector) {
  return poseAt(at, { x: 1, y: 0, z: 0 }, { x: 0, y: 0, z: 1 }).at;
}

/** A bank with all tubes but one, and ten obstacles about them that leave room for the tube which was there; null where the bank was not placed whole. */
function crowdedQuestion(random: Random, run: number) {
  const bank = randomBank(random);
  const outcome = proposeHeader(bank, { clrs: CLRS });
  if (outcome.kind === 'none') return null;
  let header = foundValue(applyEdit(bank, outcome.proposal.edit)).header;
  while (header.obstacles.length < OBSTACLES) {
    const one = obstacleBeside(header, random, `o${header.obstacles.length + 1}`);
    const trial = { ...header, obstacles: [...header.obstacles, one] };
    if (headerClearances(trial).tight.length === 0) header = trial;
  }
  const id = `p${1 + (run % header.primaries.length)}`;
  const primaries = header.primaries.map((primary) => (primary.id === id ? { ...primary, pieces: [] } : primary));
  return { header: { ...header, primaries }, id, length: about(outcome.proposal.lengthMm) };
}

/** One primary by itself (G3, G3 tail), and the first idea beside three others and ten obstacles (G3 first). */
export function measureProposals(size: RunSize): readonly Measure[] {
  const runs = size === 'long' ? 1000 : 100;
  const random = seededRandom(1630);
  const samplesMs: number[] = [];
  // The compiler settles in on questions that are not measured.
  for (let run = -40; run < runs; run += 1) {
    const { header, length } = lonelyQuestion(random, run + 40);
    const { ms } = onCpu(() => proposePrimaries(header, 'own', { clrs: CLRS, length }));
    if (run >= 0) samplesMs.push(ms);
  }
  const { factor, words } = calibrate(threadCpuMs);
  const what = `proposals for one primary with nothing beside it, ${runs} pairs of poses, on the processor (${words})`;
  const figure = (part: number) => quantile(samplesMs, part);
  return [
    within(MEDIAN_GOAL_MS * factor, { id: 'G3', what: `${what}, median`, value: figure(0.5), unit: 'ms' }),
    within(TAIL_GOAL_MS * factor, {
      id: 'G3 tail',
      what: `${what}, 99th percentile`,
      value: figure(0.99),
      unit: 'ms',
    }),
    measureFirst(size),
  ];
}

function measureFirst(size: RunSize): Measure {
  const runs = size === 'long' ? 100 : 12;
  const samplesMs: number[] = [];
  const random = seededRandom(1631);
  for (let run = -2; run < runs; run += 1) {
    const question = crowdedQuestion(random, run + 2);
    if (question === null) continue;
    const { ms, value: news } = onCpu(() => {
      const search = new ProposalSearch(question.header, question.id, { clrs: CLRS, length: question.length });
      search.look(() => search.news > 0);
      return search.news;
    });
    if (run >= 0) samplesMs.push(news > 0 ? ms : Number.POSITIVE_INFINITY);
  }
  const { factor, words } = calibrate(threadCpuMs);
  const none = samplesMs.filter((ms) => ms === Number.POSITIVE_INFINITY).length;
  const what = `until the first proposal beside three neighbours and ${OBSTACLES} obstacles, ${samplesMs.length} banks, ${none} without any, on the processor (${words}), median`;
  return within(FIRST_GOAL_MS * factor, { id: 'G3 first', what, value: quantile(samplesMs, 0.5), unit: 'ms' });
}

/** Banks of four into one collector (G4 placed, G4), and eight into two (G4 eight). */
export function measureBanks(size: RunSize): readonly Measure[] {
  const banks = size === 'long' ? 60 : 6;
  const secondsOf = (header: Header) => {
    const { ms, value } = onCpu(() => proposeHeader(header, { clrs: CLRS }));
    return { seconds: ms / 1000, isPlaced: value.kind === 'found' };
  };
  const four = Array.from({ length: banks }, (_, i) => secondsOf(randomBank(seededRandom(i + 1))));
  const eight = Array.from({ length: size === 'long' ? 10 : 1 }, (_, i) =>
    secondsOf(bankOfEight(seededRandom(1660 + i))),
  );
  const { factor, words } = calibrate(threadCpuMs);
  const percent = (100 * four.filter(({ isPlaced }) => isPlaced).length) / banks;
  const slowest = quantile(
    four.map(({ seconds }) => seconds),
    0.99,
  );
  const worst = Math.max(...eight.map(({ seconds, isPlaced }) => (isPlaced ? seconds : Number.POSITIVE_INFINITY)));
  const bank = `banks of four into one collector, ${banks} of them`;
  return [
    within(BANK_GOAL_S * factor, {
      id: 'G4',
      what: `${bank}, on the processor (${words}), 99th percentile`,
      value: slowest,
      unit: 's',
    }),
    {
      id: 'G4 placed',
      what: `${bank}: all four placed`,
      value: percent,
      unit: '%',
      goal: `>= ${PLACED_GOAL_PERCENT}`,
      ok: percent >= PLACED_GOAL_PERCENT,
    },
    within(EIGHT_GOAL_S * factor, {
      id: 'G4 eight',
      what: `eight primaries into two collectors, ${eight.length} headers, on the processor (${words}), the slowest`,
      value: worst,
      unit: 's',
    }),
  ];
}
