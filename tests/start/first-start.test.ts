import { expect, test } from 'vitest'
import { SET_UP_FIELDS } from '../helpers/people.ts'
import { type Bedwright, emptyStore, noStoreYet, startBedwright } from '../helpers/process.ts'
import { formBody, setUpAt, setUpLine } from '../helpers/set-up.ts'

const stopped = (bedwright: Bedwright) => {
  bedwright.child.kill('SIGTERM')
  return bedwright.ended()
}

test('the set-up address is printed until there is an owner, opens once, and is gone after', {
  timeout: 120_000,
}, async () => {
  const store = await noStoreYet()
  const first = startBedwright(store)
  const address = await first.address()
  const form = await (await fetch(address)).text()
  expect(form).not.toContain('name="beds.0')
  const path = new URL(await setUpLine(first)).pathname
  expect((await fetch(address + path)).status).toBe(200)
  expect((await setUpAt(address, path)).status).toBe(303)
  expect((await fetch(address + path)).status).toBe(404)
  const again = await fetch(address + path, {
    method: 'POST',
    headers: { origin: address },
    body: formBody({ ...SET_UP_FIELDS, 'owner.email': 'mallory@example.com' }),
    redirect: 'manual',
  })
  expect(again.status).toBe(404)
  expect(await stopped(first)).toBe(0)

  const second = startBedwright(store)
  expect(await (await fetch(await second.address())).text()).toContain('Fern Beds')
  expect(await stopped(second)).toBe(0)
  expect(second.said.filter(line => line.includes('/set-up/'))).toEqual([])
})

test('links outlive a restart, because the key is kept', { timeout: 120_000 }, async () => {
  const store = await emptyStore()
  const first = startBedwright(store)
  await first.address()
  const before = new URL(await setUpLine(first)).pathname
  await stopped(first)
  const second = startBedwright(store)
  await second.address()
  expect(new URL(await setUpLine(second)).pathname).toBe(before)
})
