//go:build unix

package archive

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// lock takes the file for this process alone. The system lets go of it when
// the process ends, however it ends.
func lock(f *os.File) error {
	err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		return ErrBusy
	}
	return err
}
