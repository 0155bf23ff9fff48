import { z } from 'zod'
import { choice, figure, figureOrNone, nameOf, yes } from './row.ts'

/** What a trip carries: the truck’s bed, and a trailer where there is one. volume in yd³|m³ level, payload in lb|kg. */
export const carrier = z.object({
  name: nameOf({ secret: true }),
  volume: figure('volume', 'Filled level, it holds', { unit: '{bulk}', above: 0, secret: true }),
  payload: figureOrNone('payload', 'It can carry, at most', {
    unit: '{weight}',
    above: 0,
    meaning: 'Empty: not known.',
    secret: true,
  }),
})

const fetched = { section: 'costs', heading: 'Buying and picking up' }

/** How the finishes of a job are bought and fetched. Tables from before that fetched each by itself, and mixed nothing. */
export const fetching = z.object({
  together: choice(
    'picked up together',
    'What rides in one load',
    {
      all: 'everything, with a tarp between loose materials',
      apart: 'bags and bales with anything, but never two loose materials',
      each: 'one material at a time',
    },
    { ...fetched, start: 'all', before: 'each', meaning: 'Trips are counted by volume and by wet weight.' },
  ),
  mixed: yes('loose and bags mixed', 'Buy part of a material loose and the rest in bags if that’s cheaper', {
    ...fetched,
    start: true,
    before: false,
  }),
})
