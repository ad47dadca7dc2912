package schema

import (
	"reflect"
	"strings"
	"sync"
)

// field is one key of a mapping in the form, from the tags of the Go type.
type field struct {
	key       string
	typ       reflect.Type
	omitEmpty bool // a null means the same as leaving the key out
}

var (
	documentType       = reflect.TypeFor[Document]()
	quantityType       = reflect.TypeFor[Quantity]()
	saidType           = reflect.TypeFor[Said]()
	quantityObjectType = reflect.TypeFor[quantityObject]()
)

var fieldCache sync.Map // reflect.Type -> []field

// keysOf lists the keys of a struct type in the order they are written, with
// those of embedded structs in place.
func keysOf(t reflect.Type) []field {
	if cached, ok := fieldCache.Load(t); ok {
		return cached.([]field)
	}
	var fields []field
	for i := 0; i < t.NumField(); i++ {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		if f.Anonymous && strings.Contains(options, "inline") {
			fields = append(fields, keysOf(f.Type)...)
			continue
		}
		fields = append(fields, field{key: name, typ: f.Type, omitEmpty: strings.Contains(options, "omitempty")})
	}
	fieldCache.Store(t, fields)
	return fields
}

// fieldOf finds a key of a struct type.
func fieldOf(t reflect.Type, key string) (field, bool) {
	for _, f := range keysOf(t) {
		if f.key == key {
			return f, true
		}
	}
	return field{}, false
}

// pathSeparator joins the keys and indexes of a path inside a document. No key
// of the form holds it.
const pathSeparator = "\x00"

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + pathSeparator + key
}

// plainPath writes a path for people: ingredients[2].amount.
func plainPath(path string) string {
	var b strings.Builder
	for _, key := range strings.Split(path, pathSeparator) {
		switch {
		case key == "":
		case isIndex(key):
			b.WriteString("[" + key + "]")
		default:
			if b.Len() > 0 {
				b.WriteString(".")
			}
			b.WriteString(key)
		}
	}
	return b.String()
}

func isIndex(key string) bool {
	for _, r := range key {
		if !isDigit(r) {
			return false
		}
	}
	return key != ""
}
