import { expect, test } from 'vitest'
import { signWebhook, verifyWebhook } from '../../src/lib/webhook.ts'

// The example that the libraries of the specification Standard Webhooks are tested with.
const SECRET = 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw'
const ID = 'msg_p5jXN8AQM9LWM0D4loKWxJek'
const AT = Temporal.Instant.fromEpochMilliseconds(1614265330_000)
const BODY = '{"test": 2432232314}'
const SIGNED = {
  'webhook-id': ID,
  'webhook-timestamp': '1614265330',
  'webhook-signature': 'v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=',
}

test('a message is signed as the specification says', () => {
  expect(signWebhook(SECRET, ID, AT, BODY)).toEqual(SIGNED)
})

test('it counts for five minutes before and after, with one of several signatures', () => {
  for (const seconds of [-300, 0, 300])
    expect(verifyWebhook(SECRET, SIGNED, BODY, AT.add({ seconds }))).toBe(ID)
  const two = { ...SIGNED, 'webhook-signature': `v1,AAAA ${SIGNED['webhook-signature']}` }
  expect(verifyWebhook(SECRET, two, BODY, AT)).toBe(ID)
})

test.each([
  ['later', SIGNED, BODY, 301],
  ['earlier', SIGNED, BODY, -301],
  ['another body', SIGNED, `${BODY} `, 0],
  ['another id', { ...SIGNED, 'webhook-id': 'msg_other' }, BODY, 0],
  ['another moment', { ...SIGNED, 'webhook-timestamp': '1614265331' }, BODY, 0],
  ['a moment that is none', { ...SIGNED, 'webhook-timestamp': '1e9' }, BODY, 0],
  [
    'another version',
    { ...SIGNED, 'webhook-signature': SIGNED['webhook-signature'].replace('v1', 'v2') },
    BODY,
    0,
  ],
  ['no signature', { ...SIGNED, 'webhook-signature': '' }, BODY, 0],
  ['an empty id', { ...SIGNED, 'webhook-id': '' }, BODY, 0],
  ['a doubled header', { ...SIGNED, 'webhook-id': [ID, ID] }, BODY, 0],
  ['nothing', {}, BODY, 0],
])('%s is refused', (_what, headers, body, seconds) => {
  expect(verifyWebhook(SECRET, headers, body, AT.add({ seconds }))).toBeNull()
})
