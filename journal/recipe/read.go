package recipe

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"golang.org/x/net/html"
)

// longestFile is the longest file that is read.
const longestFile = 16 << 20

// Read reads every recipe of a file, at most a hundred. It tells JSON from HTML by
// what stands in it.
func Read(r io.Reader) ([]Recipe, error) {
	data, err := io.ReadAll(io.LimitReader(r, longestFile+1))
	if err != nil {
		return nil, fmt.Errorf("reading a recipe: %w", err)
	}
	if len(data) > longestFile {
		return nil, ErrTooLong
	}
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	var all []Recipe
	seen := false
	take := func(block []byte) {
		var v any
		if json.Unmarshal(block, &v) == nil {
			seen = true
			all = collect(v, all, 0)
		}
	}
	if begins := bytes.TrimSpace(data); len(begins) > 0 && (begins[0] == '{' || begins[0] == '[') {
		take(data)
	} else {
		scripts(data, take)
	}
	switch {
	case !seen:
		return nil, ErrNotJSON
	case len(all) == 0:
		return nil, ErrNoRecipe
	}
	return all, nil
}

// scripts hands over what each script element of JSON-LD holds.
func scripts(page []byte, take func([]byte)) {
	z := html.NewTokenizer(bytes.NewReader(page))
	inside := false
	for {
		switch z.Next() {
		case html.ErrorToken:
			return // the end, or what is no HTML
		case html.StartTagToken:
			inside = false
			name, more := z.TagName()
			script := string(name) == "script"
			for more {
				var key, value []byte
				key, value, more = z.TagAttr()
				kind, _, _ := strings.Cut(string(value), ";")
				if script && string(key) == "type" && strings.EqualFold(strings.TrimSpace(kind), "application/ld+json") {
					inside = true
				}
			}
		case html.TextToken:
			if inside {
				// Old pages hide a script from older browsers.
				block := bytes.TrimSpace(bytes.Clone(z.Raw()))
				block = bytes.TrimSuffix(bytes.TrimPrefix(block, []byte("<!--")), []byte("-->"))
				take(block)
			}
		case html.EndTagToken:
			inside = false
		}
	}
}

// Bounds of what a file may make us do.
const (
	mostRecipes = 100
	mostDeep    = 50
)

// collect finds the recipes in a value, at whatever depth.
func collect(v any, all []Recipe, depth int) []Recipe {
	if depth > mostDeep || len(all) >= mostRecipes {
		return all
	}
	switch v := v.(type) {
	case []any:
		for _, one := range v {
			all = collect(one, all, depth+1)
		}
	case map[string]any:
		if isType(v, "Recipe") {
			return append(all, toRecipe(v))
		}
		for _, key := range sorted(v) {
			all = collect(v[key], all, depth+1)
		}
	}
	return all
}

// isType reports whether an object is of a type of schema.org, however that is
// spelled.
func isType(v map[string]any, want string) bool {
	types, _ := v["@type"].([]any)
	if one, ok := v["@type"].(string); ok {
		types = []any{one}
	}
	for _, t := range types {
		s, _ := t.(string)
		s = strings.TrimPrefix(strings.TrimPrefix(s, "https://"), "http://")
		if strings.TrimPrefix(strings.TrimPrefix(s, "schema.org/"), "schema:") == want {
			return true
		}
	}
	return false
}

// plain makes words of a member: without the tags and entities that pages put into
// them, without control characters, and no longer than anybody reads.
func plain(s string) string {
	const longest = 20_000
	if strings.ContainsAny(s, "<&") {
		s = textOf(s)
	}
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' {
			return ' '
		}
		return r
	}, strings.ReplaceAll(s, "\r\n", "\n"))
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "…"
	}
	return s
}

// textOf takes tags and entities out of a text.
func textOf(s string) string {
	z := html.NewTokenizer(strings.NewReader(s))
	var b strings.Builder
	for {
		switch z.Next() {
		case html.ErrorToken:
			if !errors.Is(z.Err(), io.EOF) {
				return s
			}
			return b.String()
		case html.TextToken:
			b.Write(z.Text())
		case html.StartTagToken, html.EndTagToken, html.SelfClosingTagToken:
			if name, _ := z.TagName(); breaks(string(name)) {
				b.WriteByte('\n')
			}
		}
	}
}

func breaks(tag string) bool {
	switch tag {
	case "br", "p", "li", "div":
		return true
	}
	return false
}
