import { browserSupportsWebAuthn, startAuthentication, startRegistration } from '@simplewebauthn/browser'

for (const place of document.querySelectorAll<HTMLElement>('[data-passkey]')) {
  const [needs, actions, failed] = place.querySelectorAll('p')
  const field = place.querySelector('input')
  const button = place.querySelector('button')
  const form = place.closest('form')
  if (!needs || !actions || !failed || !field || !button || !form || !browserSupportsWebAuthn()) continue
  needs.hidden = true
  actions.hidden = false
  button.addEventListener('click', async event => {
    event.preventDefault()
    const empty = [...form.querySelectorAll<HTMLInputElement>('input[required]')].find(
      input => input.value === '' && (input.type === 'password' || place.dataset.passkey === 'keep'),
    )
    if (empty) return empty.focus()
    failed.hidden = true
    button.disabled = true
    try {
      field.value = JSON.stringify(await answer(place))
      form.submit()
    } catch (error) {
      const isKept = error instanceof Error && error.name === 'InvalidStateError'
      failed.textContent = (isKept ? failed.dataset.kept : failed.dataset.failed) ?? ''
      failed.hidden = false
    } finally {
      button.disabled = false
    }
  })
}

function answer({ dataset }: HTMLElement) {
  const optionsJSON = JSON.parse(dataset.options ?? '{}')
  return dataset.passkey === 'keep'
    ? startRegistration({ optionsJSON })
    : startAuthentication({ optionsJSON })
}
