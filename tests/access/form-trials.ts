import type { TestApp } from '../helpers/app.ts'
import { bodyOf, FAULTY, filledRight, filledWrong, type Sent, type Way } from './filling.ts'
import { type Button, type Form, formsOf } from './forms.ts'
import { routeOf } from './route-of.ts'

interface Answer {
  status: number
  /** The path that was asked for or posted to. */
  address: string
  /** The markup, where it is a page. */
  page: string
  location: string
  cookie: string
}

/** Tries the forms of pages in every way, and gathers what is wrong. */
export class FormTrials {
  readonly faults: string[] = []
  /** The routes that forms were sent to, as 'POST /rates'. */
  readonly reached = new Set<string>()
  /** How often a form came back with what was wrong with it. */
  refused = 0
  readonly #app: TestApp
  readonly #files: Record<string, File>
  #asked = 0

  /** `files` are what is chosen where a form asks for a file, by the names of the fields. */
  constructor(app: TestApp, files: Record<string, File>) {
    this.#app = app
    this.#files = files
  }

  async ask(
    method: 'GET' | 'POST',
    address: string,
    cookie: string,
    body?: Awaited<ReturnType<typeof bodyOf>>,
  ) {
    this.#asked += 1
    const answer = await this.#app.server.inject({
      method,
      url: address,
      // From another address each time, so that the limit of a few a minute is not met.
      remoteAddress: `198.18.${this.#asked >> 8}.${this.#asked & 255}`,
      headers: {
        origin: this.#app.deps.config.publicUrl,
        accept: 'text/html',
        cookie,
        ...(body && { 'content-type': body.type }),
      },
      ...(body && { payload: body.payload }),
    })
    const { statusCode: status, headers, payload, cookies } = answer
    const isPage = String(headers['content-type']).startsWith('text/html')
    return {
      status,
      address,
      page: isPage ? payload : '',
      location: String(headers.location ?? ''),
      cookie: cookies.map(({ name, value }) => `${name}=${value}`).join('; '),
    }
  }

  /** Opens a page, and tries every form on it but those that `but` names, of several to one route the last one. */
  async tryPage(address: string, cookie: string, but: string[] = []): Promise<void> {
    const page = await this.ask('GET', address, cookie)
    if (page.status !== 200) this.faults.push(`GET ${address} answers ${page.status}`)
    const forms = new Map(formsOf(page.page, address).map(form => [this.#routeOf(form), form]))
    for (const [route, form] of forms)
      if (!but.includes(route))
        await this.#tryForm(`GET ${this.#pattern('GET', address)}`, address, form, cookie)
  }

  async #tryForm(where: string, page: string, form: Form, cookie: string): Promise<void> {
    let shownAgain: Form | undefined
    let isDone = false
    for (const way of Object.keys(FAULTY) as Way[]) {
      const sent = filledWrong(form, way)
      const answer = await this.#send(form, sent, form.buttons[0], cookie)
      const here = `${where}, ${this.#routeOf(form)} ${way}`
      this.#requireSound(here, answer)
      isDone ||= answer.status < 400
      if (!answer.page || answer.status < 400) continue
      const forms = formsOf(answer.page, answer.address)
      shownAgain ??= forms.find(one => this.#routeOf(one) === this.#routeOf(form))
      if (answer.status === 422 || answer.status === 409) {
        this.refused += 1
        // What is done already may well have no form any more.
        if (way !== 'tampered with' && !isDone) {
          // What a form before it on the page has done may well have left nothing to do by this one, or by a part of it.
          const lost = lostOf(form, sent, forms)
          const still = lost.length > 0 ? await this.#stillThere(page, form, cookie) : lost
          if (still.length > 0)
            this.faults.push(
              ...lost.filter(name => still.includes(name)).map(name => `${here}: ${name} is lost`),
            )
        }
      }
    }
    const [first, ...others] = form.buttons
    await this.#sendRight(where, form, shownAgain ?? form, shownAgain ? shownAgain.buttons[0] : first, cookie)
    for (const button of others) await this.#sendRight(where, form, form, button, cookie)
  }

  /** Sends the values of a form by itself, or by the form as it was shown again. */
  async #sendRight(where: string, form: Form, by: Form, button: Button | undefined, cookie: string) {
    const right = filledRight(form, this.#files)
    const isIn = new Set(right.map(([name]) => name))
    const added = by === form ? [] : filledRight(by, this.#files).filter(([name]) => !isIn.has(name))
    const answer = await this.#send(by, [...right, ...added], button, cookie)
    const here = `${where}, ${this.#routeOf(form)} ${button?.value ?? ''} right${by === form ? '' : ' again'}`
    this.#requireSound(here, answer)
    // A page that only a post can show has forms of its own.
    for (const next of answer.status === 200 && answer.page ? formsOf(answer.page, answer.address) : [])
      if (!this.reached.has(this.#routeOf(next)) && next.address !== '/sign-out')
        await this.#tryForm(`${here}, then`, '', next, cookie)
  }

  async #send(form: Form, sent: Sent, button: Button | undefined, cookie: string): Promise<Answer> {
    const { method, isMultipart } = form
    const address = button?.address ?? form.address
    this.reached.add(this.#routeOf({ method, address }))
    const body = await bodyOf(isMultipart, button?.name ? [...sent, [button.name, button.value]] : sent)
    if (method === 'POST') return this.ask(method, address, cookie, body)
    return this.ask(method, `${address.split('?')[0]}?${body.payload}`, cookie)
  }

  /** It is no fault of ours and there, and so is wherever it leads on. */
  #requireSound(here: string, { status, address, page, location }: Answer): void {
    if (status >= 500 || status === 404 || status === 405) this.faults.push(`${here}: ${status}`)
    if (location && !this.#pattern('GET', new URL(location, `http://localhost${address}`).pathname))
      this.faults.push(`${here}: leads on to ${location}`)
    for (const form of page ? formsOf(page, address) : [])
      for (const there of [form.address, ...form.buttons.flatMap(button => button.address ?? [])])
        if (!this.#pattern(form.method, there))
          this.faults.push(`${here}: shows a form that leads to ${form.method} ${there}, which isn’t there`)
  }

  /** The names of what a form of a page asks by now, none where it has gone; one that only a post can show is as it was. */
  async #stillThere(page: string, form: Form, cookie: string): Promise<string[]> {
    const answer = page ? await this.ask('GET', page, cookie) : null
    const by = answer
      ? formsOf(answer.page, page).find(one => this.#routeOf(one) === this.#routeOf(form))
      : form
    return by?.controls.map(({ name }) => name) ?? []
  }

  #routeOf({ method, address }: { method: string; address: string }): string {
    return `${method} ${this.#pattern(method, address)}`
  }

  #pattern(method: string, address: string): string | undefined {
    return routeOf(this.#app.routes, method, address)?.path
  }
}

/** What was typed and doesn't stand again in any form of the page, neither whole nor as the beginning of what is far too long. */
function lostOf({ controls }: Form, sent: Sent, forms: Form[]): string[] {
  const shown = forms.flatMap(form => form.controls)
  const typed = controls.filter(({ kind, isSecret }) => kind === 'typed' && !isSecret)
  return typed
    .map(({ name }) => name)
    .filter(name => {
      const said = String(sent.find(one => one[0] === name)![1])
      return !shown.some(
        one => one.name === name && (one.value === said || (one.value !== '' && said.startsWith(one.value))),
      )
    })
}
