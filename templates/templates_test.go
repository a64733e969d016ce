package templates_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/templates"
)

func TestAUsersFilesLieOverOursOneByOne(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "rules", "topics.tsv"), 0o700), "a folder is no table")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "rules", "care.tsv"), []byte("mine"), 0o600))
	layered := templates.Layered(dir)
	mine, err := fs.ReadFile(layered, "rules/care.tsv")
	require.NoError(t, err)
	assert.Equal(t, "mine", string(mine))
	for _, name := range []string{"rules/topics.tsv", "stations.tsv"} {
		got, err := fs.ReadFile(layered, name)
		require.NoError(t, err)
		want, err := fs.ReadFile(templates.FS(), name)
		require.NoError(t, err)
		assert.Equal(t, want, got, name)
	}
	_, err = layered.Open("rules/none.tsv")
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

// A user's file that is no table is refused before it is read, and ours does not stand in for it unseen.
func TestAHugeFileIsRefused(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "rules"), 0o700))
	name := filepath.Join(dir, "rules", "care.tsv")
	require.NoError(t, os.WriteFile(name, nil, 0o600))
	require.NoError(t, os.Truncate(name, 5<<20))
	_, err := fs.ReadFile(templates.Layered(dir), "rules/care.tsv")
	require.ErrorContains(t, err, "rules/care.tsv")
	assert.ErrorContains(t, err, "5242880 bytes")
}
