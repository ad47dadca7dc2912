package transcript

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/unicode/norm"
)

// decode turns the bytes of a file into text: UTF-8 with or without a byte
// order mark, UTF-16 by its byte order mark, else Windows-1252. It gives the
// name of the encoding as in Narration.Encoding. Accented letters written as a
// letter and a mark are joined to one (Unicode form NFC), so that a word is
// found however it was typed.
func decode(data []byte, w *warnings) (text, encoding string, err *Error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xEF\xBB\xBF")):
		text, encoding = repair(data[3:], w), "utf-8-bom"
	case bytes.HasPrefix(data, []byte("\xFF\xFE")):
		text, encoding = wide(data[2:], binary.LittleEndian, w), "utf-16le"
	case bytes.HasPrefix(data, []byte("\xFE\xFF")):
		text, encoding = wide(data[2:], binary.BigEndian, w), "utf-16be"
	case utf8.Valid(data):
		text, encoding = string(data), "utf-8"
	default:
		if isBinary(string(data)) {
			return "", "", failure(0, ErrBinary, "%s", binaryHint(data))
		}
		joined, stray, line := strayBytes(data)
		if joined > stray {
			text, encoding = repair(data, w), "utf-8"
			break
		}
		decoded, decodeErr := charmap.Windows1252.NewDecoder().Bytes(data)
		if decodeErr != nil {
			return "", "", failure(line, ErrBinary, "%v", decodeErr)
		}
		text, encoding = string(decoded), "windows-1252"
		w.add(line, "encoding", "not UTF-8, read as Windows-1252")
	}
	// Bytes that are no UTF-16 decode to halves of characters, about three in
	// a hundred.
	halves := strings.HasPrefix(encoding, "utf-16") && strings.Count(text, "\uFFFD")*100 > utf8.RuneCountInString(text)
	if isBinary(text) || halves {
		return "", "", failure(0, ErrBinary, "%s", binaryHint(data))
	}
	if strings.ContainsRune(text, 0) {
		// The WebVTT standard asks for this replacement; for the other
		// formats it keeps a stray byte from ending up inside a word.
		w.add(0, "zero bytes", "the text holds zero bytes, read as unknown characters")
		text = strings.ReplaceAll(text, "\x00", "\uFFFD")
	}
	return norm.NFC.String(text), encoding, nil
}

// repair gives UTF-8 in which stray bytes are replaced, with a warning.
func repair(data []byte, w *warnings) string {
	if utf8.Valid(data) {
		return string(data)
	}
	_, stray, line := strayBytes(data)
	w.add(line, "encoding", "%d bytes are not UTF-8, read as unknown characters", stray)
	return string(bytes.ToValidUTF8(data, []byte("\uFFFD")))
}

// strayBytes counts the characters of two and more bytes that are sound UTF-8
// and the bytes that are not, and gives the line of the first such byte. A
// file with more of the former is UTF-8 that was damaged, not Windows-1252.
func strayBytes(data []byte) (joined, stray, line int) {
	at := 1
	for len(data) > 0 {
		r, size := utf8.DecodeRune(data)
		switch {
		case r == utf8.RuneError && size == 1:
			if stray == 0 {
				line = at
			}
			stray++
		case size > 1:
			joined++
		case r == '\n':
			at++
		}
		data = data[size:]
	}
	return joined, stray, line
}

// wide decodes UTF-16 whose byte order mark has been taken off.
func wide(data []byte, order binary.ByteOrder, w *warnings) string {
	if len(data)%2 == 1 {
		w.add(0, "encoding", "the UTF-16 text ends in half a character, left out")
		data = data[:len(data)-1]
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return string(utf16.Decode(units))
}

// isBinary reports whether more than one character in 200 is a control
// character no editor writes. Text has none; pictures, sound and archives have
// one in eight or so.
func isBinary(text string) bool {
	controls := 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c >= 0x20 && c != 0x7F:
		case c == '\t', c == '\n', c == '\r', c == '\v', c == '\f', c == 0x1A, c == 0x1B:
		default:
			controls++
		}
	}
	return controls*200 > len(text)
}

// binaryHint says what to do with a file that is no text.
func binaryHint(data []byte) string {
	head := data[:min(len(data), 512)]
	even, odd := 0, 0
	for i, c := range head {
		switch {
		case c != 0:
		case i%2 == 0:
			even++
		default:
			odd++
		}
	}
	if (even == 0 || odd == 0) && (even+odd)*3 > len(head) {
		return "it looks like UTF-16 without a byte order mark; save it as UTF-8"
	}
	return "give the transcript, not the recording or a document file"
}

// splitLines cuts text at LF, CR and CRLF. The lines share the text's memory.
func splitLines(text string) []string {
	lines := make([]string, 0, strings.Count(text, "\n")+1)
	for {
		i := strings.IndexAny(text, "\r\n")
		if i < 0 {
			return append(lines, text)
		}
		lines = append(lines, text[:i])
		if text[i] == '\r' && i+1 < len(text) && text[i+1] == '\n' {
			i++
		}
		text = text[i+1:]
	}
}
