package journal

import (
	"reflect"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
	"twinloaf/journal/say"
)

// A fault is a figure of a record that cannot be.
type fault struct {
	path  string // of the field within the record
	value float64
	err   error
}

// figureKinds are the kinds of figures that a type says by itself; a field may say
// another with the tag `limit:"rise"`.
var figureKinds = map[reflect.Type]limit.Kind{
	reflect.TypeFor[formula.Grams]():   limit.Weight,
	reflect.TypeFor[formula.Celsius](): limit.Temperature,
	reflect.TypeFor[formula.Percent](): limit.Percent,
	reflect.TypeFor[time.Duration]():   limit.Minutes,
}

// mend makes every text of a record valid UTF-8, whatever door it came by, and gives
// the figures in it that cannot be. A figure of zero that stands for none is left out.
func mend(rec any) []fault {
	var m mender
	m.walk(reflect.ValueOf(rec), "", nil)
	return m.faults
}

type mender struct{ faults []fault }

func (m *mender) walk(v reflect.Value, path string, kind *limit.Kind) {
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return
		}
		if v.Elem().Kind() == reflect.Struct {
			m.walk(v.Elem(), path, nil)
			return
		}
		m.figure(v.Elem(), path, kind) // a figure that is there, even if zero
	case reflect.Struct:
		m.fields(v, path)
	case reflect.Slice, reflect.Array:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			return
		}
		for i := range v.Len() {
			m.walk(v.Index(i), path, kind)
		}
	case reflect.String:
		if s := v.String(); !utf8.ValidString(s) && v.CanSet() {
			v.SetString(strings.ToValidUTF8(s, "\uFFFD"))
		}
	default:
		if !v.IsZero() {
			m.figure(v, path, kind)
		}
	}
}

func (m *mender) fields(v reflect.Value, path string) {
	t := v.Type()
	if t == reflect.TypeFor[time.Time]() {
		return
	}
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() {
			continue
		}
		var kind *limit.Kind
		if k, ok := limit.Named(f.Tag.Get("limit")); ok {
			kind = &k
		}
		m.walk(v.Field(i), path+"/"+f.Name, kind)
	}
}

func (m *mender) figure(v reflect.Value, path string, kind *limit.Kind) {
	if kind == nil {
		k, known := figureKinds[v.Type()]
		if !known {
			return
		}
		kind = &k
	}
	var x float64
	switch {
	case v.Type() == reflect.TypeFor[time.Duration]():
		x = time.Duration(v.Int()).Minutes()
	case v.CanInt():
		x = float64(v.Int())
	case v.CanFloat():
		x = v.Float()
	default:
		return
	}
	if err := limit.Check(*kind, x); err != nil {
		m.faults = append(m.faults, fault{path, x, err})
	}
}

// refuseNew refuses a record for a figure that cannot be and that it did not have
// before: what an older version let in does not keep the rest of a record from being
// written.
func refuseNew(after, before []fault) error {
	for _, f := range after {
		if !slices.ContainsFunc(before, func(b fault) bool { return b.path == f.path && b.value == f.value }) {
			return &say.Error{Said: say.Of("{{.Value}} cannot be right here. {{.Limits}}", say.With{
				"Value": say.Number{Value: f.value, Decimals: say.AsNeeded}, "Limits": lineOf(f.err)}), Err: f.err}
		}
	}
	return nil
}

func lineOf(err error) say.Line {
	l, _ := say.OfError(err)
	return l
}
