package report

import "thawbook/report/words"

// Lacks tells a function that was wanted and is not there, by its code: of a kit as sensing gives the reason, else in a sentence.
func Lacks(w *words.Words, code string) string {
	if w.Has(words.Reasons, code) {
		return w.Line(words.Reasons, code)[0]
	}
	return w.Say(code)
}
