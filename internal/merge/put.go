//go:build !windows

package merge

import (
	"fmt"
	"path/filepath"

	"github.com/google/renameio/v2"
)

// Put writes a file in one move: beside its place first, forced to disk, then
// renamed over it. Permissions of a file already there are kept.
func Put(path string, data []byte) error {
	if err := renameio.WriteFile(path, data, 0o644, renameio.WithExistingPermissions(), renameio.WithTempDir(filepath.Dir(path))); err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	return nil
}
