import { expect } from 'vitest'
import { formsOf } from '../access/forms.ts'
import type { TestApp } from '../helpers/app.ts'
import type { Browser } from '../helpers/people.ts'

type Who = 'owner' | 'homeowner'

export type Visitors = ReturnType<typeof visitors>

/** The owner's browser as it stands then, and homeowners who come from an address of their own each time, so that no limit is met. */
export function visitors(app: TestApp, owner: () => Browser) {
  let asked = 0
  return {
    ask,
    /** A page, which has to be there. */
    async look(by: Who, path: string, language = 'en'): Promise<string> {
      const { status, text } = await ask(by, path, undefined, language)
      expect([path, status]).toEqual([path, 200])
      return text
    },
    /** What a form is answered with, which has to be as wanted. */
    async send(by: Who, path: string, fields: Record<string, string>, wanted = 303): Promise<string> {
      const { status, text } = await ask(by, path, fields)
      expect([path, status]).toEqual([path, wanted])
      return text
    },
    otherLanguage: () => (asked % 2 ? 'en' : 'es'),
  }

  async function ask(by: Who, path: string, fields?: Record<string, string>, language = 'en') {
    if (by === 'owner') {
      const browser = owner()
      const answer = fields ? await browser.post(path).type('form').send(fields) : await browser.get(path)
      return { status: answer.status, text: answer.text ?? '' }
    }
    asked += 1
    const { statusCode: status, payload: text } = await app.server.inject({
      method: fields ? 'POST' : 'GET',
      url: path,
      remoteAddress: `198.18.${asked >> 8}.${asked & 255}`,
      headers: {
        origin: app.deps.config.publicUrl,
        'accept-language': language,
        ...(fields && { 'content-type': 'application/x-www-form-urlencoded' }),
      },
      ...(fields && { payload: new URLSearchParams(fields).toString() }),
    })
    return { status, text }
  }
}

/** What a browser sends of the form of a page that leads to a path. */
export function filled(page: string, address: string, leadsTo: string): Record<string, string> {
  const form = formsOf(page, address).find(one => one.address === leadsTo)!
  return Object.fromEntries(
    form.controls.filter(({ isSent }) => isSent).map(({ name, value }) => [name, value]),
  )
}
