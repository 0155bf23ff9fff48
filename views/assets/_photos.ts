import { keep, kept } from './_kept-form.ts'

const KEPT = 'photos'
/** A larger file is made smaller here first, so that it gets through with one bar of signal. */
const LARGE = 1_500_000
const LONGER = 2000

interface Carried {
  token: string
  words: string
}

/**
 * Sends each photo as soon as it is chosen, one after the other, and shows how far it is; the form carries what it was
 * answered. With `isKept` photos are found again when the page was left.
 */
export function sendPhotos(form: HTMLFormElement, { isKept }: { isKept: boolean }): void {
  const part = form.querySelector<HTMLElement>('[data-photos]')
  const template = part?.querySelector<HTMLTemplateElement>('[data-photo-row]')
  const pick = part?.querySelector<HTMLElement>('[data-photo-pick]')
  if (!part || !template || !pick) return
  const { photos: address, most, wait = '', offline = '' } = part.dataset
  const list = part.querySelector<HTMLElement>('[data-photo-list]')!
  const input = pick.querySelector('input')!
  let sending = Promise.resolve()
  let unsent = 0

  part.querySelector<HTMLElement>('[data-photo-fields]')?.remove()
  pick.hidden = false
  for (const row of list.querySelectorAll<HTMLElement>('.photo')) makeRemovable(row)
  const save = () => isKept && keep(KEPT, JSON.stringify(carried(list)))
  const follow = () => {
    pick.hidden = list.childElementCount >= Number(most)
    save()
  }
  if (isKept && list.childElementCount === 0) for (const one of carriedBefore()) show(addRow(), one)
  follow()
  list.addEventListener('input', save)
  list.addEventListener('click', event => {
    const button = (event.target as HTMLElement).closest('[data-remove]')
    if (!button) return
    button.closest('.photo')!.remove()
    follow()
    pick.querySelector('button')!.focus()
  })
  pick.querySelector('button')!.addEventListener('click', () => input.click())
  input.addEventListener('change', () => {
    const left = Number(most) - list.childElementCount
    for (const file of [...(input.files ?? [])].slice(0, left)) queue(file)
    input.value = ''
    follow()
  })
  form.addEventListener('submit', event => {
    const isWaiting = unsent > 0
    setShown(part.querySelector('[data-photo-wait]'), isWaiting)
    if (!isWaiting) return
    event.preventDefault()
    event.stopImmediatePropagation()
    say(wait)
  })

  function queue(file: File): void {
    const row = addRow()
    unsent += 1
    sending = sending.then(async () => {
      try {
        if (!row.isConnected) return
        const progress = row.querySelector('progress')!
        show(row, {
          token: await sendOne(address!, await smaller(file), share => (progress.value = share)),
          words: '',
        })
        say(part!.querySelector<HTMLElement>('[data-photo-said]')!.dataset.added!)
      } catch (error) {
        fail(row, (error as Error).message || offline)
      } finally {
        unsent -= 1
        if (unsent === 0) setShown(part!.querySelector('[data-photo-wait]'), false)
        follow()
      }
    })
  }

  function addRow(): HTMLElement {
    const row = template!.content.firstElementChild!.cloneNode(true) as HTMLElement
    const place = freePlace(list)
    for (const field of row.querySelectorAll<HTMLInputElement>('[data-name]')) {
      field.name = `photos.${place}.${field.dataset.name}`
      if (field.type !== 'hidden') field.id = field.name.replaceAll('.', '-')
    }
    row.querySelector('label')!.htmlFor = row.querySelector<HTMLInputElement>('[data-name=words]')!.id
    list.append(row)
    return row
  }

  function show(row: HTMLElement, { token, words }: Carried): void {
    const value = (name: string) => row.querySelector<HTMLInputElement>(`[data-name=${name}]`)!
    value('kept').value = token
    if (words) value('words').value = words
    const picture = new Image()
    picture.alt = ''
    // One that was here too long is gone.
    picture.addEventListener('error', () => {
      row.remove()
      follow()
    })
    picture.src = `/request/photos/${token}`
    row.querySelector('[data-picture]')!.replaceChildren(picture)
  }

  function say(words: string): void {
    part!.querySelector('[data-photo-said]')!.textContent = words
  }
}

function freePlace(list: HTMLElement): number {
  for (let place = 0; ; place++) if (!list.querySelector(`[name^="photos.${place}."]`)) return place
}

function fail(row: HTMLElement, message: string): void {
  row.querySelector('[data-picture]')!.replaceChildren()
  row.querySelector('.field')!.remove()
  const fault = row.querySelector<HTMLElement>('[data-fault]')!
  fault.textContent = message
  fault.hidden = false
  fault.setAttribute('role', 'alert')
}

// What the page has brought is taken out at once too.
function makeRemovable(row: HTMLElement): void {
  const tick = row.querySelector<HTMLInputElement>('[type=checkbox]')
  tick?.addEventListener('change', () => {
    row.remove()
  })
}

function carried(list: HTMLElement): Carried[] {
  return [...list.querySelectorAll<HTMLElement>('.photo')].flatMap(row => {
    const value = (end: string) => row.querySelector<HTMLInputElement>(`[name$=".${end}"]`)?.value ?? ''
    return value('kept') ? [{ token: value('kept'), words: value('words') }] : []
  })
}

function carriedBefore(): Carried[] {
  try {
    return JSON.parse(kept(KEPT) ?? '[]')
  } catch {
    return []
  }
}

/** A photo with fewer pixels; the file itself where that isn't large, or this browser can't read it. */
async function smaller(file: File): Promise<Blob> {
  if (file.size < LARGE) return file
  try {
    const whole = await createImageBitmap(file)
    const share = Math.min(1, LONGER / Math.max(whole.width, whole.height))
    const canvas = document.createElement('canvas')
    canvas.width = Math.round(whole.width * share)
    canvas.height = Math.round(whole.height * share)
    const context = canvas.getContext('2d')!
    // What is transparent would be black.
    context.fillStyle = '#fff'
    context.fillRect(0, 0, canvas.width, canvas.height)
    context.drawImage(whole, 0, 0, canvas.width, canvas.height)
    whole.close()
    const made = await new Promise<Blob | null>(resolve => canvas.toBlob(resolve, 'image/jpeg', 0.9))
    return made && made.size < file.size ? made : file
  } catch {
    return file
  }
}

/** Sends a file, telling how far it is in percent; gives what the form carries for it, and throws what is wrong in words, '' where nothing was heard. */
function sendOne(address: string, file: Blob, tell: (share: number) => void): Promise<string> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest()
    request.open('POST', address)
    request.setRequestHeader('content-type', 'application/octet-stream')
    request.setRequestHeader('accept', 'application/json')
    request.responseType = 'json'
    request.timeout = 120_000
    request.upload.addEventListener('progress', ({ loaded, total }) => tell((100 * loaded) / total))
    const lost = () => reject(new Error(''))
    request.addEventListener('error', lost)
    request.addEventListener('timeout', lost)
    request.addEventListener('load', () => {
      const { response } = request
      if (response?.kept) resolve(response.kept)
      else reject(new Error(response?.errors?.[0]?.message ?? ''))
    })
    request.send(file)
  })
}

function setShown(element: HTMLElement | null | undefined, shown: boolean): void {
  if (element) element.hidden = !shown
}
