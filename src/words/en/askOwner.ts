/** The English of "I need one thing from you". */
export const ASK_OWNER_EN = {
  hello: 'Hello,',
  helloNamed: 'Hello {name},',
  need: 'I need one thing from you for machine {tag}: {label}.',
  photo: 'A photo is enough: of the label, or of the case inside.',
  link: 'Put it in here, or send a photo there: {link}',
  sign: 'Thanks,\n{builder}, {shop}',
  answerLink: 'All of it, and a place to ask more: {link}',
} as const
