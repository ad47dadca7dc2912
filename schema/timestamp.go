package schema

import (
	"fmt"
	"regexp"
	"strconv"
	"time"
)

// Timestamp writes a moment as a WebVTT timestamp, hours always present
// ("00:03:07.000"), to the millisecond below. A negative moment, which stands
// for no time, gives "".
func Timestamp(at time.Duration) string {
	if at < 0 {
		return ""
	}
	ms := at.Milliseconds()
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}

var timestampForm = regexp.MustCompile(`^(?:([0-9]{2,6}):)?([0-5][0-9]):([0-5][0-9])[.]([0-9]{3})$`)

// ParseTimestamp reads a WebVTT timestamp, with or without hours.
func ParseTimestamp(text string) (time.Duration, error) {
	m := timestampForm.FindStringSubmatch(text)
	if m == nil {
		return 0, fmt.Errorf("%q is no timestamp; accepted: hh:mm:ss.mmm as in 00:03:07.000", shorten(text))
	}
	var total int64
	for i, unit := range []int64{3600000, 60000, 1000, 1} {
		// The form has checked the digits; absent hours count as none.
		n, _ := strconv.ParseInt(m[i+1], 10, 64)
		total += n * unit
	}
	return time.Duration(total) * time.Millisecond, nil
}
