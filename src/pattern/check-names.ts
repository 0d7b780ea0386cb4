import type { Finding } from './finding.ts';
import { levelNames, seamSidesOf, seamWords, sewnSeams } from './look-up.ts';
import type { Panel } from './panel.ts';
import type { Pattern } from './pattern.ts';

/** Each name that comes more than once, once. */
const repeated = (names: readonly string[]): string[] => [
  ...new Set(names.filter((name, i) => names.indexOf(name) !== i)),
];

const twice = (where: string, what: string): Finding => ({
  weight: 'error',
  kind: 'name-twice',
  where,
  message: `${what} has the same name as another`,
  cure: 'give each its own name',
});

const panelNames = (panel: Panel): Finding[] => [
  ...repeated(panel.edges.map(({ name }) => name)).map((name) => twice(`panel ${panel.name}`, `edge ${name}`)),
  ...repeated(panel.levels.map(({ name }) => name)).map((name) => twice(`panel ${panel.name}`, `level ${name}`)),
];

const unlabelled = (panel: Panel): Finding => ({
  weight: 'warning',
  kind: 'panel-unlabelled',
  where: `panel ${panel.name}`,
  message: 'has no top, bottom and two seam edges, so that it can be neither measured nor altered',
  cure: 'name its seams and levels with staywright label',
});

/** The levels that other panels have and this one has not; every panel needs the waist, but a gusset has only what lies below its apex. */
const missingLevels = (panel: Panel, names: readonly string[]): Finding[] =>
  (panel.gusset ? [] : [...new Set(['waist', ...names])])
    .filter((name) => !panel.levels.some((level) => level.name === name))
    .map((name) => ({
      weight: name === 'waist' ? 'error' : 'warning',
      kind: 'level-missing',
      where: `panel ${panel.name}, level ${name}`,
      message: name === 'waist' ? 'is missing: panels are matched on it' : 'is missing here, but other panels have it',
      cure: `label the drawing again with --level ${name}=...`,
    }));

/** Levels that come in another order than on the panels before. */
const levelOrder = (panel: Panel, names: readonly string[]): Finding[] => {
  const places = panel.levels
    .toSorted((a, b) => a.y - b.y)
    .map((level) => ({ level, place: names.indexOf(level.name) }));
  return places.flatMap(({ level, place }, i): Finding[] => {
    const above = places[i - 1];
    if (above === undefined || above.place < place) return [];
    return [
      {
        weight: 'warning',
        kind: 'levels-out-of-order',
        where: `panel ${panel.name}, level ${level.name}`,
        message: `lies below ${above.level.name}, but above it on other panels`,
        cure: 'check which of the two lines bears the wrong name',
      },
    ];
  });
};

const seamFindings = (pattern: Pattern): Finding[] =>
  sewnSeams(pattern).flatMap((seam): Finding[] => {
    if (seam.edges.length <= 2) {
      const [one, other] = seam.edges;
      if (!one || !other || one.side !== other.side) return [];
      const names = `${one.panel.name} and ${other.panel.name}`;
      return [
        {
          weight: 'error',
          kind: 'seam-sides',
          where: `seam ${seamWords(seam)}`,
          message: `joins two ${one.side} edges, of ${names}`,
          cure: 'name the seams again, from centre front to centre back',
        },
      ];
    }
    return [
      {
        weight: 'error',
        kind: 'seam-of-many',
        where: `seam ${seamWords(seam)}`,
        message: `has ${seam.edges.length} edges, on ${seam.edges.map(({ panel }) => panel.name).join(', ')}`,
        cure: 'give each pair of edges that are sewn together its own name',
      },
    ];
  });

/** Whether panels, edges, levels and seams are named so that each can be told from the others and none is missing. */
export const checkNames = (pattern: Pattern): Finding[] => {
  const names = levelNames(pattern);
  return [
    ...repeated(pattern.panels.map(({ name }) => name)).map((name) => twice(`panel ${name}`, 'the panel')),
    ...pattern.panels.flatMap((panel) => [
      ...panelNames(panel),
      ...(seamSidesOf(panel) ? [...missingLevels(panel, names), ...levelOrder(panel, names)] : [unlabelled(panel)]),
    ]),
    ...seamFindings(pattern),
  ];
};
