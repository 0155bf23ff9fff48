import { setGateway } from '../../src/letters/change-gateway.ts'
import { keepWords } from '../../src/letters/words-form.ts'
import { makeFeed } from '../../src/queue/feed.ts'
import type { TestApp } from '../helpers/app.ts'

/** Whatever waits in the outbox was refused for good. */
export async function failToSend({ db }: TestApp): Promise<void> {
  await db
    .updateTable('outbox')
    .set({ last_fault: 'stopped: EENVELOPE 550' })
    .where('sent_at', 'is', null)
    .where('last_fault', 'is', null)
    .execute()
}

/** Texts go to a gateway that isn't there from then on. */
export async function useGateway({ deps }: TestApp): Promise<void> {
  await setGateway(deps, 'http://127.0.0.1:9/texts')
}

/** The same, and somebody of the staff subscribes to a calendar. */
export async function gatewayAndFeed(app: TestApp, accountId: number): Promise<void> {
  await useGateway(app)
  await makeFeed(app.deps, accountId)
}

/** One message is in the owner's own words. */
export async function ownWords({ db }: TestApp): Promise<void> {
  await keepWords(db, [{ key: 'mail.visit', language: 'en', words: 'We come by.' }])
}
