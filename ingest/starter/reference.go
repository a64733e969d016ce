package starter

import (
	"strings"

	"thawbook/calc/units"
	"thawbook/templates"
)

// Reference returns the page that tells every column of every input sheet, as Markdown.
func Reference() (string, error) {
	t, err := readTexts(templates.FS())
	if err != nil {
		return "", err
	}
	var page strings.Builder
	page.WriteString(t.say("page-title") + "\n\n" + t.say("page-about") + "\n")
	for _, list := range sheets() {
		page.WriteString("\n## " + list[0].sheet + "\n")
		group := "none yet"
		for _, c := range list {
			if c.group != group {
				group = c.group
				page.WriteString(t.tableHead(group))
			}
			page.WriteString(row(t.title(c), t.unitsOf(c), t.rangeOf(c), t.defaultOf(c), t.helpOf(c)))
		}
	}
	return page.String(), nil
}

// tableHead begins the table of a group of columns.
func (t texts) tableHead(group string) string {
	name := ""
	if group != "" {
		name = "\n### " + t.say("group-"+strings.ReplaceAll(group, " ", "-")) + "\n"
	}
	return name + "\n" + row(t.say("page-heading"), t.say("page-unit"), t.say("page-range"), t.say("page-default"), t.say("page-help")) + "|---|---|---|---|---|\n"
}

// row writes a row of a table.
func row(cells ...string) string {
	for i, c := range cells {
		cells[i] = strings.ReplaceAll(c, "|", `\|`)
	}
	return "| " + strings.Join(cells, " | ") + " |\n"
}

func (t texts) title(c column) string {
	if c.required {
		return "**" + c.heading + "** (" + t.say("page-required") + ")"
	}
	return "**" + c.heading + "**"
}

func (t texts) unitsOf(c column) string {
	si, ip := c.unit(units.SI), c.unit(units.IP)
	if si == ip {
		return si
	}
	return si + " / " + ip
}

func (t texts) rangeOf(c column) string {
	least, most, ranged := c.bounds(units.SI)
	if !ranged {
		return ""
	}
	span := least + " to " + most
	if c.unit(units.SI) == c.unit(units.IP) {
		return span
	}
	least, most, _ = c.bounds(units.IP)
	return span + " / " + least + " to " + most
}

// defaultOf tells what a blank means, with the reason where the default is listed in results.
func (t texts) defaultOf(c column) string {
	dflt := plainly(c.blank(units.SI))
	if c.blank(units.SI) == "" {
		return ""
	}
	if ip := c.blank(units.IP); ip != c.blank(units.SI) {
		dflt += " / " + ip
	}
	if c.dfltSource == "" {
		return dflt
	}
	return t.say("page-reason", "default", dflt, "reason", t.reasons[c.dfltSource])
}

func (t texts) helpOf(c column) string {
	parts := []string{c.help}
	if len(c.choices) > 0 {
		parts = append(parts, t.say("page-choices", "choices", t.choices(c)))
	}
	if c.onlyFor != "" {
		parts = append(parts, t.say("page-only-for", "kind", c.onlyFor))
	}
	if len(c.aliases) > 0 {
		parts = append(parts, t.say("page-aliases", "aliases", strings.Join(c.aliases, ", ")))
	}
	return strings.Join(parts, " ")
}
