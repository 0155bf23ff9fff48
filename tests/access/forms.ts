import { type DefaultTreeAdapterTypes, parse } from 'parse5'

type Element = DefaultTreeAdapterTypes.Element
type Node = DefaultTreeAdapterTypes.ChildNode

/** What a form sends by one name; each radio and each tick is one of its own. Hidden is what no person gets to. */
export interface Control {
  name: string
  kind: 'typed' | 'picked' | 'ticked' | 'hidden' | 'file'
  value: string
  /** Whether a browser sends it as it stands: a tick that isn't ticked is not sent. */
  isSent: boolean
  /** Never shown again, such as a password. */
  isSecret: boolean
  isLong: boolean
}

/** A way to send a form. */
export interface Button {
  name: string
  value: string
  /** Where it leads by itself, as a path of ours; undefined: where its form leads. */
  address: string | undefined
}

export interface Form {
  method: 'GET' | 'POST'
  /** Where it leads, as a path of ours. */
  address: string
  isMultipart: boolean
  controls: Control[]
  buttons: Button[]
}

const ORIGIN = 'http://localhost:8080'

/** The forms of a page as a browser finds them that has asked for `address`, or posted to it. */
export function formsOf(page: string, address: string): Form[] {
  const resolved = (action: string | undefined) => {
    const there = new URL(action || address, ORIGIN + address)
    if (there.origin !== ORIGIN) throw new Error(`A form of ${address} leads to another site: ${action}`)
    return there.pathname + there.search
  }
  return elementsIn(parse(page).childNodes, 'form').map(form => {
    const inside = elementsIn(form.childNodes, 'input', 'select', 'textarea', 'button')
    const sound = inside.filter(element => attribute(element, 'disabled') === undefined)
    return {
      method: attribute(form, 'method')?.toLowerCase() === 'post' ? 'POST' : 'GET',
      address: resolved(attribute(form, 'action')),
      isMultipart: attribute(form, 'enctype') === 'multipart/form-data',
      controls: sound.flatMap(controlOf),
      buttons: sound.filter(isButton).map(button => {
        const action = attribute(button, 'formaction')
        const [name = '', value = ''] = [attribute(button, 'name'), attribute(button, 'value')]
        return { name, value, address: action === undefined ? undefined : resolved(action) }
      }),
    }
  })
}

function controlOf(element: Element): Control[] {
  const name = attribute(element, 'name')
  if (!name || element.tagName === 'button') return []
  const type = element.tagName === 'input' ? (attribute(element, 'type') ?? 'text') : element.tagName
  const isForPeople = attribute(element, 'tabindex') !== '-1' && type !== 'hidden'
  const control = {
    name,
    value: standingValue(element),
    isSent: true,
    isSecret: type === 'password',
    isLong: type === 'textarea',
  }
  if (type === 'radio' || type === 'checkbox')
    return [{ ...control, kind: 'ticked', isSent: attribute(element, 'checked') !== undefined }]
  if (!isForPeople) return [{ ...control, kind: 'hidden' }]
  return [{ ...control, kind: type === 'file' ? 'file' : type === 'select' ? 'picked' : 'typed' }]
}

function standingValue(element: Element): string {
  if (element.tagName === 'textarea') return textIn(element)
  if (element.tagName !== 'select') return attribute(element, 'value') ?? ''
  const options = elementsIn(element.childNodes, 'option')
  const picked = options.find(option => attribute(option, 'selected') !== undefined) ?? options[0]
  return picked ? (attribute(picked, 'value') ?? textIn(picked)) : ''
}

function isButton(element: Element): boolean {
  return element.tagName === 'button' && (attribute(element, 'type') ?? 'submit') === 'submit'
}

function attribute(element: Element, name: string): string | undefined {
  return element.attrs.find(one => one.name === name)?.value
}

function textIn(element: Element): string {
  return element.childNodes.map(node => ('value' in node ? node.value : '')).join('')
}

function elementsIn(nodes: Node[], ...names: string[]): Element[] {
  return nodes.flatMap(node => {
    if (!('tagName' in node)) return []
    return [...(names.includes(node.tagName) ? [node] : []), ...elementsIn(node.childNodes, ...names)]
  })
}
