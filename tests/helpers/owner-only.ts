import { expect } from 'vitest'
import type { TestApp } from './app.ts'
import type { Browser } from './people.ts'

/** Checks that a page or form is the owner's alone: a stranger is sent to sign in, the signed-in helper refused. */
export async function expectOwnerOnly(
  app: TestApp,
  helper: Browser,
  method: 'get' | 'post',
  path: string,
): Promise<void> {
  const stranger = await ask(app.browser(), method, path)
  expect(stranger.status).toBe(303)
  expect(stranger.headers.location).toMatch(/^\/sign-in/)
  const refused = await ask(helper, method, path)
  expect(refused.status).toBe(403)
}

function ask(browser: Browser, method: 'get' | 'post', path: string) {
  return method === 'get' ? browser.get(path) : browser.post(path).type('form').send({})
}
