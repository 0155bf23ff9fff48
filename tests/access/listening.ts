import type { TestApp } from '../helpers/app.ts'

/** One answer with all that came with it: its headers, what it sets cookies to, and its text. */
export interface Heard {
  /** 'GET /r/:token', as the table of routes has it. */
  route: string
  path: string
  status: number
  location: string
  said: string
}

export type Form = Record<string, string | string[]>

/** Somebody who asks the application in both languages and keeps every answer whole; `cookie` is a session's. */
export function listener(app: TestApp, cookie = '') {
  const heard: Heard[] = []
  let asked = 0
  const send = async (method: 'GET' | 'POST', pattern: string, path: string, more: object = {}) => {
    asked += 1
    const language = asked % 2 === 0 ? 'en' : 'es'
    const answer = await app.server.inject({
      method,
      url: path,
      // From another address each time, so that the limit of a few a minute is not met.
      remoteAddress: `198.51.100.${asked % 250}`,
      ...more,
      headers: { origin: 'http://localhost:8080', cookie, 'accept-language': language, ...headersOf(more) },
    })
    const { statusCode: status, headers, payload } = answer
    const cookies = answer.cookies.map(({ value }) => decodeURIComponent(value)).join('\n')
    const said = [JSON.stringify(headers), cookies, payload].join('\n')
    const one = {
      route: `${method} ${pattern}`,
      path,
      status,
      location: String(headers.location ?? ''),
      said,
    }
    heard.push(one)
    return one
  }
  return {
    heard,
    /** Asks for a page in English and in Spanish; gives the last answer. */
    get: async (pattern: string, path: string) => {
      await send('GET', pattern, path)
      return send('GET', pattern, path)
    },
    /** Asks for a page once. */
    open: (pattern: string, path: string) => send('GET', pattern, path),
    /** Posts a form as a browser does. */
    post: (pattern: string, path: string, form: Form = {}, headers: Record<string, string> = {}) =>
      send('POST', pattern, path, {
        payload: formText(form),
        headers: { 'content-type': 'application/x-www-form-urlencoded', ...headers },
      }),
    /** Posts JSON as another program does. */
    postJson: (pattern: string, path: string, payload: object) => send('POST', pattern, path, { payload }),
  }
}

export type Listener = ReturnType<typeof listener>

function headersOf(more: object): Record<string, string> {
  return 'headers' in more ? (more.headers as Record<string, string>) : {}
}

function formText(form: Form): string {
  const pairs = Object.entries(form).flatMap(([name, value]) => [value].flat().map(one => [name, one]))
  return new URLSearchParams(pairs).toString()
}
