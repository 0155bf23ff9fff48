import { named, type Source } from '../table/row.ts'

const mulch = named('UF/IFAS Extension, Alachua and Polk counties: 2 to 3 in, not over 4')

/** Whose figures those of the starter finishes are, by slug and path, where not as their rows say. */
export const starterSources: Record<string, Record<string, Source>> = {
  'shredded-wood': { depth: mulch },
  'dyed-wood': { depth: mulch },
  'bark-nuggets': {
    depth: named('UF/IFAS Extension, Alachua and Polk counties; Alabama Extension ANR-1359: to 4 in'),
  },
  'pine-straw': { depth: mulch },
  compost: { densityWet: named('Massachusetts: compost up to 1,350 lb a cubic yard') },
  stone: { densityWet: named('CalRecycle: gravel 2,600 lb a cubic yard, and 20% more when wet') },
}
