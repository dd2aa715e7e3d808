// Pages work without this. It adds: a button that copies a text, a file list before an upload, and that an upload is on its way.
for (const button of document.querySelectorAll('button[data-copies]')) {
  const source = document.getElementById(button.dataset.copies)
  if (source === null || navigator.clipboard === undefined) continue
  button.hidden = false
  button.addEventListener('click', async () => {
    const told = document.getElementById(button.dataset.tells)
    try {
      await navigator.clipboard.writeText(source.value ?? source.textContent)
      if (told !== null) told.textContent = 'Copied.'
    } catch {
      if (told !== null)
        told.textContent = 'This browser does not let a page copy. Select the text and copy it.'
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
