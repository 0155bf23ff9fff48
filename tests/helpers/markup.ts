import { HtmlValidate } from 'html-validate'
import type { Response, SuperAgentRequest } from 'superagent'

const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: {
    // Telephone numbers are kept on one line by the class that every number has.
    'tel-non-breaking': ['error', { ignoreClasses: ['number'] }],
  },
})

/** What html-validate says against a page, one line for each complaint; none when it is sound. */
export async function markupFaults(page: string): Promise<string[]> {
  const { results } = await validator.validateString(page)
  return results.flatMap(({ source, messages }) =>
    messages.map(
      ({ ruleId, message, line }) => `${ruleId}: ${message} in ${source?.split('\n')[line - 1]?.trim()}`,
    ),
  )
}

/** Gathers the pages that the browsers of a test see, to be checked in the end. */
export function seenPages() {
  const pages = new Map<string, string>()
  return {
    see: (request: SuperAgentRequest): void => {
      request.on('response', ({ type, text }: Response) => {
        if (type === 'text/html' && text)
          pages.set(text, `${request.method} ${new URL(request.url).pathname}`)
      })
    },
    requireSound: async (): Promise<void> => {
      for (const [page, where] of pages) {
        const faults = await markupFaults(page)
        if (faults.length > 0) throw new Error(`The page of ${where} is no sound HTML:\n${faults.join('\n')}`)
      }
    },
  }
}
