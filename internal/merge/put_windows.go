package merge

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// Put writes a file beside its place, forces it to disk, and renames it over.
// Windows has no rename that is one move by contract (package renameio leaves
// it out for that reason); os.Rename asks for the nearest thing,
// MOVEFILE_REPLACE_EXISTING.
func Put(path string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"*")
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(fmt.Errorf("write %s: %w", path, err), os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
