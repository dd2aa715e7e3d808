// Pages work without this. It adds: a button that copies a text, a file list before an upload, that an upload is on its way,
// and what changes while mails go out, without moving the page.
for (const button of document.querySelectorAll('button[data-copies]')) {
  const source = document.getElementById(button.dataset.copies)
  if (source === null || navigator.clipboard === undefined) continue
  button.hidden = false
  button.addEventListener('click', async () => {
    const told = document.getElementById(button.dataset.tells)
    try {
      await navigator.clipboard.writeText(source.value ?? source.textContent)
      if (told !== null) told.textContent = button.dataset.says
    } catch {
      if (told !== null) told.textContent = button.dataset.fails
    }
  })
}
for (const input of document.querySelectorAll('input[type=file][data-lists]')) {
  const list = document.getElementById(input.dataset.lists)
  if (list === null) continue
  input.addEventListener('change', () => {
    list.textContent = [...input.files].map((file) => file.name).join(', ')
  })
}
for (const form of document.querySelectorAll('form[data-sending]')) {
  const told = document.getElementById(form.dataset.sending)
  form.addEventListener('submit', () => {
    if (told !== null) told.hidden = false
  })
}
// A question that is not about titles needs none: their fold follows what is asked, and opens by hand.
for (const fold of document.querySelectorAll('details.of-titles')) {
  for (const radio of fold.closest('form').querySelectorAll('input[name="asks"]'))
    radio.addEventListener('change', () => {
      fold.open = radio.value === 'what can I do' || radio.value === 'will it run this'
    })
}
// What has `data-again` follows the page as it is now, every so many seconds; where somebody is in it, it stays.
const changing = document.querySelectorAll('[data-again][id]')
if (changing.length > 0) {
  const bring = async () => {
    if (document.hidden) return
    const answer = await fetch(location.href, { headers: { accept: 'text/html' } })
    if (!answer.ok) return
    const now = new DOMParser().parseFromString(await answer.text(), 'text/html')
    for (const { id } of changing) {
      const [old, fresh] = [document.getElementById(id), now.getElementById(id)]
      if (old === null || fresh === null || old.contains(document.activeElement)) continue
      if (old.innerHTML !== fresh.innerHTML) old.innerHTML = fresh.innerHTML
      if (!fresh.hasAttribute('data-again')) clearInterval(timer)
    }
  }
  const timer = setInterval(() => bring().catch(() => {}), Number(changing[0].dataset.again) * 1000)
}
