import { z } from 'zod'

const base64url = z.string().regex(/^[\w-]{1,8000}$/)

const answer = z.object({
  id: base64url,
  rawId: base64url,
  type: z.literal('public-key'),
  clientExtensionResults: z.object({}).catch({}),
})

const kept = answer.extend({
  response: z.object({
    clientDataJSON: base64url,
    attestationObject: base64url,
    transports: z
      .array(z.string().regex(/^[a-z-]{1,20}$/))
      .max(10)
      .catch([]),
  }),
})

const proved = answer.extend({
  response: z.object({
    clientDataJSON: base64url,
    authenticatorData: base64url,
    signature: base64url,
    userHandle: base64url.optional().catch(undefined),
  }),
})

export type KeptAnswer = z.infer<typeof kept>
export type ProvedAnswer = z.infer<typeof proved>

/** What a browser answered when a passkey was made, as the form carries it; null where it isn't one. */
export const readKept = (typed: string): KeptAnswer | null => readAnswer(kept, typed)

/** What a browser answered with a passkey that is kept; null where it isn't one. */
export const readProved = (typed: string): ProvedAnswer | null => readAnswer(proved, typed)

function readAnswer<Answer>(schema: z.ZodType<Answer>, typed: string): Answer | null {
  try {
    return schema.safeParse(JSON.parse(typed)).data ?? null
  } catch {
    return null
  }
}
