import type { Decimal } from '../../lib/decimal.ts'
import type { Bed, CutOut } from '../job/bed.ts'
import { showArea, showDepth, showLength } from '../units/show.ts'
import type { UnitSystem } from '../units/units.ts'

/**
 * What was understood of a bed before, each thing left out that wasn't: it isn't read again. A depth is null where the
 * finish's usual one was meant.
 */
export interface Known extends Partial<Pick<Bed, 'lying' | 'cutOuts' | 'noEdge' | 'carry' | 'layers'>> {
  outline?: Pick<Bed, 'shape' | 'sizes'>
  depth?: Decimal | null
}

/** How what is known is echoed, by the field that it stands beside. */
export function knownEchoes({ lying, depth, cutOuts, noEdge, carry }: Known, system: UnitSystem) {
  const echoes: Record<string, string> = {}
  if (lying?.layer === null) echoes.lying = `= ${showDepth(lying.m, system)}`
  if (depth) echoes.depth = `= ${showDepth(depth, system)}`
  if (cutOuts && cutOuts.length > 0)
    echoes.cutOuts = `= ${cutOuts.map(one => cutOutShown(one, system)).join('; ')}`
  if (noEdge?.gt(0)) echoes.noEdge = `= ${showLength(noEdge, system)}`
  if (carry?.gt(0)) echoes.carry = `= ${showLength(carry, system)}`
  return echoes
}

function cutOutShown({ shape, sizes, count }: CutOut, system: UnitSystem): string {
  const inWords = (name: string) => showLength(sizes[name]!.value, system)
  const one = {
    rectangle: () => `${inWords('length')} × ${inWords('width')}`,
    circle: () => `⌀ ${inWords('diameter')}`,
    area: () => showArea(sizes.area!.value, system),
  }[shape]()
  return count === 1 ? one : `${count} × (${one})`
}
