import { type Store, vacuum } from '../db/open.ts'
import type { Deps } from '../deps.ts'
import { type BackgroundWork, NIGHTLY } from './jobs.ts'

/** Begins to work off what is queued. */
export async function takeUpWork({ boss }: BackgroundWork, _deps: Deps, store: Store): Promise<void> {
  await boss.work(NIGHTLY, () => vacuum(store))
}
