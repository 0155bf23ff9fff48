import type { Job } from '../job/bed.ts'
import type { BedErrors } from '../job/methods/method.ts'
import type { Change, ScenarioBed, ScenarioFinish } from './scenario-beds.ts'

/** Whether two changes make the same of a job. */
export type Alike = (one: Change, other: Change) => boolean

/** Changes of the same figures in beds that the scenarios can't tell apart, on top and beneath, are alike. */
export function alikeIn(job: Job, finishes: ScenarioFinish[]): Alike {
  const places = job.beds.map((_, index) => placesOf(index, finishes))
  return (one, other) => {
    if (one.lyingError !== other.lyingError) return false
    if (!samePlaces(places[one.bed]!, places[other.bed]!)) return false
    const edged = places[one.bed]!.some(({ bed }) => bed.edge > 0)
    return (
      sameErrors(one.errors, other.errors, edged) && !hasExtras(one.bed, job) && !hasExtras(other.bed, job)
    )
  }
}

/** Where a bed has its part in the sums of a job: on top of which finish, and beneath. */
interface Place {
  group: object
  bed: ScenarioBed
}

function placesOf(index: number, finishes: ScenarioFinish[]): Place[] {
  return finishes
    .flatMap(finish => [finish, ...finish.beneath])
    .flatMap(group => group.beds.filter(bed => bed.index === index).map(bed => ({ group, bed })))
}

function samePlaces(one: Place[], other: Place[]): boolean {
  return (
    one.length === other.length &&
    one.every(({ group, bed }, at) => group === other[at]!.group && sameBed(bed, other[at]!.bed))
  )
}

// Some for this bed alone: they tell it from others.
function hasExtras(index: number, { beds }: Job): boolean {
  const { extras, layers } = beds[index]!
  return extras.length > 0 || layers.some(layer => 'extra' in layer)
}

function sameBed(one: ScenarioBed, other: ScenarioBed): boolean {
  return (
    one.volume === other.volume &&
    one.cover === other.cover &&
    one.lying === other.lying &&
    one.lyingError === other.lyingError &&
    one.count === other.count &&
    one.area === other.area &&
    one.ground === other.ground &&
    one.target === other.target &&
    one.fresh === other.fresh &&
    one.thinnest === other.thinnest &&
    one.slowness === other.slowness &&
    one.told === other.told &&
    one.edge === other.edge &&
    sameErrors(one.errors, other.errors, one.edge > 0)
  )
}

// Looking for the error of an edge is dear.
function sameErrors(one: BedErrors | undefined, other: BedErrors | undefined, edged: boolean): boolean {
  if (one === undefined || other === undefined) return one === other
  return (
    one.shared === other.shared &&
    one.own === other.own &&
    one.ownArea === other.ownArea &&
    (!edged || (one.edge === other.edge && one.ownEdge === other.ownEdge && one.ownBoth === other.ownBoth))
  )
}
