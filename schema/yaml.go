package schema

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"gopkg.in/yaml.v3"
)

// This file alone knows the YAML library, which is no longer developed. What
// follows it (go.yaml.in/yaml/v3, the same code kept on) needs another import
// path here and nothing else.

// Node is a piece of parsed YAML: a mapping, a list, a scalar or an alias, with
// its line and column from 1, its comments and its style.
type Node = yaml.Node

// The kinds of a Node.
const (
	DocumentNode = yaml.DocumentNode
	MappingNode  = yaml.MappingNode
	SequenceNode = yaml.SequenceNode
	ScalarNode   = yaml.ScalarNode
	AliasNode    = yaml.AliasNode
)

// The styles of a Node.
const (
	FlowStyle         = yaml.FlowStyle
	LiteralStyle      = yaml.LiteralStyle
	FoldedStyle       = yaml.FoldedStyle
	SingleQuotedStyle = yaml.SingleQuotedStyle
	DoubleQuotedStyle = yaml.DoubleQuotedStyle
)

// YAMLError says why text is not read as YAML.
type YAMLError struct {
	Line   int    // from 1, 0 where it's unknown
	Reason string // what is wrong and what to do about it
}

// Error gives the line and the reason.
func (e *YAMLError) Error() string { return (&syntaxError{e.Line, e.Reason}).Error() }

// ParseYAML parses text of one YAML document of any form, with its comments
// and the order of its keys. It gives a document node, nil where the text holds
// nothing. The error is a *YAMLError: text that is no YAML, or over 64 MiB,
// 1,000,000 parts or 64 levels, aliases that expand to more than 10,000 parts,
// a second document.
func ParseYAML(data []byte) (*Node, error) {
	if len(data) > maxBytes {
		return nil, &YAMLError{Reason: fmt.Sprintf("%d bytes, where at most %d are read", len(data), maxBytes)}
	}
	nodes, failed := yamlNodes(data)
	switch {
	case failed != nil:
		return nil, &YAMLError{failed.line, failed.reason}
	case len(nodes) == 0:
		return nil, nil
	case len(nodes) > 1:
		return nil, &YAMLError{nodes[1].Content[0].Line, "a second YAML document, where one is wanted"}
	}
	return nodes[0], nil
}

// FormatYAML writes nodes as a YAML stream, indented by two spaces, with their
// comments and styles. No nodes give no text. The error is the library's, of a
// tree that has no spelling.
func FormatYAML(nodes ...*Node) (text []byte, err error) {
	if len(nodes) == 0 {
		return nil, nil
	}
	if text, ok := emitYAML(nodes); ok {
		return text, nil
	}
	return libraryYAML(nodes...)
}

// libraryYAML has the library write nodes.
func libraryYAML(nodes ...*Node) ([]byte, error) {
	var out bytes.Buffer
	enc := yaml.NewEncoder(&out)
	enc.SetIndent(2)
	for _, n := range nodes {
		if err := enc.Encode(n); err != nil {
			return nil, err
		}
	}
	if err := enc.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// parseYAML parses a YAML stream, empty documents included. The error is the
// library's, or stands for a panic of the library over hostile input.
func parseYAML(data []byte) (nodes []*Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			nodes, err = nil, fmt.Errorf("the parser gave up: %v", r)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(data))
	for {
		var node yaml.Node
		err := dec.Decode(&node)
		if errors.Is(err, io.EOF) {
			return nodes, nil
		}
		if err != nil {
			return nil, err
		}
		nodes = append(nodes, &node)
	}
}
