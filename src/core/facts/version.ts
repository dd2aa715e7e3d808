/** Version of the published tables, kept with each answer. Raise it whenever a row changes what an answer says. */
export const FACTS_VERSION = 'facts 3'
