package columns_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"thawbook/ingest/columns"
)

func TestHeadingsOfEverySheet(t *testing.T) {
	all := columns.Headings()
	for _, c := range columns.Sites() {
		assert.Equal(t, c.Heading, all[c.Field])
	}
	assert.Equal(t, "Currency", all["currency"])
	assert.NotEmpty(t, all["energy_price"], "Energy")
}
