/** Said by itself each of these means it: 47 CFR 64.1200(a)(10) names the English ones. */
const ALONE =
  /^(please |por favor )?(stop|stop all|stopall|quit|end|revoke|opt out|optout|cancel|unsubscribe|enough|remove me|alto|basta|ya basta|pare|paren|para|parar|baja|cancelar|detener|no mas|ya no)( (please|now|it|this|that|all|thanks|thank you|already|por favor|ya|gracias|todo))*$/

const PHRASES = [
  /\b(stop|quit) (all |the |these |those |your |with the |with your |sending |me )*(texting|messaging|sending|contacting|writing|bothering|spamming|texts?|messages?|sms|offers?|ads|spam)\b/,
  /\b(dont|do not|never) (ever |please )?(text|message|contact|write|sms|bother)( to)? (me|us|this number)\b(?! (before|after|until|till|while|during|on|at|about|when|if))/,
  /\b(dont|do not|never) (ever )?send (me |us )?(any )?(more |another )?(texts?|messages?|offers?|ads|sms)\b/,
  /\bno more (texts?|messages?|offers?|ads|sms|spam|texting)\b/,
  /\b(take|remove|get) (me|us|my number|this number) (off|from|out)\b/,
  /\bopt(ing)? (me )?out\b|\bunsubscribe( me)?\b|\bleave (me|us) alone\b|\blose (my|this) number\b/,
  /\b(no|nunca) (me|nos) (envien?|manden?|escriban?|texteen?|contacten?|molesten?|envies|mandes|escribas)\b(?! (antes|despues|hasta|mientras))/,
  /\bdej(e|en|a|ar) de (enviar|mandar|escribir|textear|molestar|contactar)/,
  /\bno (quiero|deseo) (recibir )?(mas )?(mensajes|textos|ofertas|publicidad|sms)\b/,
  /\bno mas (mensajes|textos|ofertas|publicidad|sms)\b/,
  /\b(darme|denme|deme|dar) de baja\b|\b(quiteme|quitenme|saquenme|saqueme|borreme|borrenme)\b/,
]

/** Whether somebody says in plain words, English or Spanish, that they want no more texts. */
export function asksToStop(text: string): boolean {
  const plain = text
    .normalize('NFD')
    .replace(/\p{M}|['’]/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
  return ALONE.test(plain) || PHRASES.some(phrase => phrase.test(plain))
}
