// Pages work without this. It adds: a button that copies a text, a file list before an upload, and how far an upload is.
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
for (const form of document.querySelectorAll('form[data-progress]')) {
  const told = document.getElementById(form.dataset.progress)
  const bar = told?.querySelector('progress')
  if (!bar) continue
  form.addEventListener('submit', (event) => {
    event.preventDefault()
    told.hidden = false
    for (const button of form.querySelectorAll('button')) button.disabled = true
    const request = new XMLHttpRequest()
    request.responseType = 'document'
    request.upload.addEventListener('progress', ({ loaded, total, lengthComputable }) => {
      if (lengthComputable) bar.value = loaded / total
    })
    request.addEventListener('load', () => {
      const main = request.response?.getElementById('main')
      const stayed = new URL(request.responseURL).pathname === new URL(form.action).pathname
      if (!stayed || !main) location.assign(request.responseURL)
      else document.getElementById('main').replaceWith(main)
    })
    // The browser's own page says what is wrong with the network.
    request.addEventListener('error', () => form.submit())
    request.open('POST', form.action)
    request.send(new FormData(form))
  })
}
