import { z } from 'zod'
import { figure, INVENTED, share, together } from './row.ts'

/** Where figures of beds are asked for; none of them has a named source. */
export const inBeds = { section: 'beds', source: INVENTED }
/** Where those of measuring are. */
export const inMeasuring = { section: 'ranges', heading: 'Measuring' }

/** How far people are out who measure in one way, and how much of that is alike in all lengths of a job. */
export function way(row: string, words: string, sigma: string, rho: string) {
  const facts = { ...inMeasuring, file: 'measuring.csv', row }
  const label = `How far off a length is, measured ${words}`
  const figures = z.object({
    // Above 0.25 a shared error could outweigh the bed itself (see errors.ts).
    sigma: share('error', label, { ...facts, to: 0.25, start: sigma }),
    rho: share('shared', 'How much of that is the same for every length', { ...facts, start: rho }),
  })
  return together(figures, {
    label,
    words: '{sigma}, with {rho} of that the same for every length',
    source: INVENTED,
  })
}

/** What homeowners say lies in a bed, as a depth that may be out by a standard error. */
export function layer(
  row: string,
  words: string,
  m: [us: string, metric: string],
  s: [us: string, metric: string],
) {
  const facts = {
    section: 'beds',
    heading: 'What homeowners say about old mulch',
    file: 'lying.csv',
    row,
    unit: '{depth}',
  }
  const figures = z.object({
    m: figure('depth', `“${words}” means`, { ...facts, start: { us: m[0], metric: m[1] } }),
    s: figure('give or take', `“${words}”, give or take`, { ...facts, start: { us: s[0], metric: s[1] } }),
  })
  return together(figures, {
    label: `Old mulch, ${words}`,
    words: '{m} {depth}, give or take {s}',
    wordsOfNone: 'none',
    source: INVENTED,
  })
}

export function takenUp(row: string, words: string, start: string) {
  const facts = { ...inBeds, file: 'planted.csv', row, to: 0.9, start }
  return share('share', `Share of a bed that plants cover: ${words}`, facts)
}

/** How far off a share that plants cover may be, as a standard error. */
export function takenUpGive(row: string, words: string, before: string) {
  const facts = { ...inBeds, file: 'planted.csv', row, to: 0.2, before, words: 'give or take {}' }
  return share('give or take', `Share of a bed that plants cover: ${words}, give or take`, facts)
}

/** How far off an area is even where every size of it is exact: no bed is quite what it is called. */
export function formGive(name: string, label: string, before: string) {
  const facts = { ...inMeasuring, to: 0.25, before, source: INVENTED, words: 'give or take {}' }
  return share(name, label, { ...facts, meaning: 'Even where each size is exact.' })
}
