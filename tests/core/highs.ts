import loadHighs from 'highs'

/** HiGHS, a general solver, as the library gives it; its types are those of its CommonJS half. */
export const openHighs = loadHighs as unknown as typeof loadHighs.default
