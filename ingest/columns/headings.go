package columns

import "thawbook/calc/finding"

// Headings returns the heading that people know each field by, over all input sheets.
func Headings() map[finding.Field]string {
	all := map[finding.Field]string{}
	collect(all, Sites())
	collect(all, Climate())
	collect(all, Energy())
	collect(all, Parts())
	collect(all, Costs())
	collect(all, Settings())
	collect(all, Revisions())
	collect(all, Accepted())
	collect(all, Attachments())
	all["alternative"] = "Alternative"
	return all
}

func collect[T any](all map[finding.Field]string, list []Column[T]) {
	for _, c := range list {
		all[c.Field] = c.Heading
	}
}
