import { method1 } from '../../../job/methods/1/method.ts'
import type { Reader } from '../../reader.ts'
import { readArea, readDepth, readLength, readVolume } from './lengths.ts'
import { partList } from './lists.ts'
import { scan } from './typed.ts'

/**
 * The reader of the time when requests were stored as typed and nothing else. Frozen, all of this folder, with its
 * mistakes: what was stored then means what it took it for.
 */
export const reader1: Reader = {
  method: method1,
  shape: told => told,
  plain: typed => scan(typed).text,
  length: readLength,
  depth: readDepth,
  area: readArea,
  volume: readVolume,
  list: typed => ({ entries: partList(typed) }),
  across: /(?:across|(?:in |de )?diamet(?:er|ro)|diam\.?|(?:de )?ancho|de lado a lado)$/,
  usualLayers: false,
}
