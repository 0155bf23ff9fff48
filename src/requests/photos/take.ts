import type { FastifyRequest } from 'fastify'
import type { Deps } from '../../deps.ts'
import { languageOf } from '../../http/language.ts'
import { secondsInWords } from '../../language/dates-in-words.ts'
import { MOST_BYTES, makeGardenPicture, unitsOfPicture } from '../../photos/garden-picture.ts'
import { TooManyPictures } from '../../photos/one-at-a-time.ts'
import { lookAtPicture, type PictureFault } from '../../photos/read-picture.ts'
import { requireStanding } from '../../rates/standing.ts'
import { bytesTaken, deleteHeldBefore, holdPhoto } from './queries.ts'

/** Who sends a photo: anybody, or who has the link of a request, whom what strangers send doesn't keep from it. */
export type Sender = 'stranger' | 'link'

export type TakenPhoto = { ok: true; token: string } | { ok: false; fault: PictureFault; busy: boolean }

/** So much of the room of all photos may be taken up by those whose requests aren't sent. */
const SHARE_HELD = 0.2
const SECONDS_FOR_OTHERS = 5

/**
 * Takes a photo that was sent, makes it small, and holds it until its request is sent or it is saved with one; gives the
 * token that the form carries for it. What can't be taken is told in words for a homeowner.
 */
export async function takePhoto(
  deps: Deps,
  request: FastifyRequest,
  bytes: Uint8Array,
  sender: Sender,
): Promise<TakenPhoto> {
  const { business } = await requireStanding(deps)
  if (business.photos_each === 0) return refused('photos.off')
  // Apps often name a picture for another kind than it is: homeowners aren't troubled with that.
  const looked = await lookAtPicture(bytes, '', MOST_BYTES)
  if (!looked.ok) return { ...looked, busy: false }
  const { photos } = deps.load
  const units = unitsOfPicture(looked.made)
  const seconds = sender === 'link' ? photos.takeOwn(units, request.ip) : photos.take(units, request.ip)
  if (seconds > 0) return busy(request, seconds)
  await deleteHeldBefore(deps.db, deps.now())
  if (!(await hasRoom(deps, business.photos_megabytes * 1e6, sender))) return refused('photos.no-room')
  try {
    const made = await makeGardenPicture(bytes)
    if (!made.ok) return { ...made, busy: false }
    return { ok: true, token: await holdPhoto(deps.db, made.made, deps.now()) }
  } catch (error) {
    if (!(error instanceof TooManyPictures)) throw error
    return busy(request, SECONDS_FOR_OTHERS)
  }
}

async function hasRoom(deps: Deps, most: number, sender: Sender): Promise<boolean> {
  const { all, held } = await bytesTaken(deps.db)
  return all < most && (sender === 'link' || held < most * SHARE_HELD)
}

function refused(key: PictureFault['key']): TakenPhoto {
  return { ok: false, fault: { key, params: {} }, busy: false }
}

function busy(request: FastifyRequest, seconds: number): TakenPhoto {
  const wait = secondsInWords(seconds, languageOf(request))
  return { ok: false, fault: { key: 'photos.wait-a-little', params: { wait } }, busy: true }
}
