import type { TestApp } from '../../helpers/app.ts'
import type { Browser } from '../../helpers/people.ts'

/** The owner's browser on the pages of the draft: forms are sent as they are shown, with some fields changed. */
export function drafting(app: TestApp, owner: Browser) {
  const post = (path: string, form: Record<string, string> = {}) => owner.post(path).type('form').send(form)
  const formOf = async (path: string, changes: Record<string, string> = {}) => ({
    ...shownFields((await owner.get(path)).text),
    ...changes,
  })
  return {
    post,
    formOf,
    /** Begins a draft in which nothing is different yet. */
    open: (version = 1) => post(`/rates/versions/${version}/draft`),
    saveSection: async (section: string, changes: Record<string, string>) =>
      post(`/rates/draft/${section}`, await formOf(`/rates/draft/${section}`, changes)),
    putInForce: async (day: string) =>
      post('/rates/draft/put-in-force', await formOf('/rates/draft/preview', { day })),
    stored: () => app.db.selectFrom('rate_draft').select(['body', 'revision']).executeTakeFirstOrThrow(),
  }
}

/** What a browser sends of the fields of a page. */
export function shownFields(page: string): Record<string, string> {
  const inputs = [...page.matchAll(/<input ([^>]*)>/g)].map(([, attributes]) => attributes!)
  const attribute = (of: string, name: string) => new RegExp(`\\b${name}="([^"]*)"`).exec(of)?.[1]
  const typed = inputs
    .filter(of => attribute(of, 'type') !== 'checkbox' || /\bchecked\b/.test(of))
    .map(of => [attribute(of, 'name')!, attribute(of, 'value') ?? ''])
  const areas = [...page.matchAll(/<textarea [^>]*name="([^"]+)"[^>]*>([^<]*)</g)].map(([, name, text]) => [
    name!,
    text!,
  ])
  const picked = [...page.matchAll(/<select [^>]*name="([^"]+)"[^>]*>([\s\S]*?)<\/select>/g)].map(
    ([, name, options]) => [name!, /value="([^"]*)" selected/.exec(options!)?.[1] ?? ''],
  )
  return Object.fromEntries([...typed, ...areas, ...picked])
}
