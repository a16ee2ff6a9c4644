package words

import (
	"fmt"

	"twinloaf/journal/say"
)

// fill puts values in the place of their names: {{.Name}} is what the map has under
// "Name", written as fmt.Sprint does. A name without a value is left out.
func fill(text string, data []any) string {
	var values map[string]any
	if len(data) > 0 {
		values, _ = data[0].(map[string]any)
	}
	return say.Fill(text, func(name string) string {
		if v := values[name]; v != nil {
			return fmt.Sprint(v)
		}
		return ""
	})
}
