package words

import (
	"fmt"
	"reflect"
	"strings"
)

// fill puts values in the place of their names: {{.Name}} is what the map has under
// "Name", written as fmt.Sprint does. A name without a value is left out. What a value
// holds is never taken for a template.
func fill(text string, data []any) string {
	if !strings.Contains(text, "{{.") {
		return text
	}
	var values reflect.Value
	if len(data) > 0 {
		values = reflect.ValueOf(data[0])
	}
	var b strings.Builder
	for {
		before, after, found := strings.Cut(text, "{{.")
		name, rest, closed := strings.Cut(after, "}}")
		if !found || !closed {
			b.WriteString(text)
			return b.String()
		}
		b.WriteString(before)
		b.WriteString(written(values, name))
		text = rest
	}
}

func written(values reflect.Value, name string) string {
	if values.Kind() != reflect.Map {
		return ""
	}
	v := values.MapIndex(reflect.ValueOf(name))
	if !v.IsValid() || v.Kind() == reflect.Interface && v.IsNil() {
		return ""
	}
	return fmt.Sprint(v.Interface())
}
