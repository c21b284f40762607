package formula

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"dropleg/engine/unit"
)

// Run fills in the defaults, evaluates the law and sees that what comes out is
// what the formula promises: declared keys, finite numbers. v is not changed.
// An input that is required and absent, an output that is not finite and an
// output that is not declared are errors that name the formula and the key.
func (f Formula) Run(v Values) (Values, error) {
	in := v.clone()
	for _, s := range f.In {
		switch {
		case in.Has(s.Key):
		case s.required():
			return Values{}, fmt.Errorf("%s: %s (%s) is missing", f.Name, s.Key, s.Words)
		case s.Word != "":
			in.Word[s.Key] = s.Word
		case s.Default != nil:
			in.Num[s.Key] = *s.Default
		}
	}
	out, err := f.Eval(in)
	if err != nil {
		return Values{}, fmt.Errorf("%s: %w", f.Name, err)
	}
	for _, s := range f.Out {
		if x, ok := out.Num[s.Key]; ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			return Values{}, fmt.Errorf("%s: no finite %s (%s) follows from these inputs", f.Name, s.Key, s.Words)
		}
	}
	if key, ok := f.undeclared(out); ok {
		return Values{}, fmt.Errorf("%s: gives %s, which it does not declare", f.Name, key)
	}
	return out, nil
}

// undeclared finds an output without a symbol; of several the first by name.
func (f Formula) undeclared(out Values) (string, bool) {
	first, found := "", false
	note := func(key string) {
		if _, ok := find(f.Out, key); !ok && (!found || key < first) {
			first, found = key, true
		}
	}
	for key := range out.Num {
		note(key)
	}
	for key := range out.Word {
		note(key)
	}
	return first, found
}

// JSON is one object with the outputs that were computed, in the order of
// f.Out. A number is in the unit that its key ends in (_kPa_g, _kWh_m3), in SI
// where it ends in none; a yes or no is a boolean, a word a string.
func (f Formula) JSON(out Values) ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for _, s := range f.Out {
		var value any
		if x, ok := out.Num[s.Key]; ok {
			value = s.fileValue(x)
		} else if w, ok := out.Word[s.Key]; ok {
			value = w
		} else {
			continue
		}
		text, err := json.Marshal(value)
		if err != nil {
			return nil, fmt.Errorf("%s: writing %s: %w", f.Name, s.Key, err)
		}
		if b.Len() > 1 {
			b.WriteString(",\n ")
		}
		fmt.Fprintf(&b, "%q: %s", s.Key, text)
	}
	b.WriteString("}\n")
	return b.Bytes(), nil
}

// fileValue is the number as its key promises it.
func (s Symbol) fileValue(si float64) any {
	if s.Kind == unit.KindYesNo {
		return si != 0
	}
	if suffix, ok := unit.SuffixOf(s.Key); ok {
		if scale, offset, fits := unit.FileUnit(s.Kind, suffix); fits {
			return (si-offset)/scale + 0
		}
	}
	return si + 0
}

// Text tells the outputs to people in the units of the system, then the law,
// where it holds and where it comes from.
func (f Formula) Text(out Values, system unit.System, env unit.Env) string {
	var b strings.Builder
	wide := 0
	for _, s := range f.Out {
		if out.Has(s.Key) {
			wide = max(wide, len([]rune(s.Words)))
		}
	}
	for _, s := range f.Out {
		text := out.Word[s.Key]
		if x, ok := out.Num[s.Key]; ok {
			text = system.Text(s.Kind, x, env)
		}
		if text != "" {
			fmt.Fprintf(&b, "%-*s  %s\n", wide, s.Words, text)
		}
	}
	b.WriteString("\n" + f.origin())
	return b.String()
}

// Help tells what the formula takes and gives.
func (f Formula) Help(system unit.System, env unit.Env) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n\ntakes\n", f.Name, f.Title)
	wide := 0
	for _, key := range append(keys(f.In), keys(f.Out)...) {
		wide = max(wide, len(key))
	}
	for _, s := range f.In {
		fmt.Fprintf(&b, "  %-*s  %s%s\n", wide, s.Key, s.Words, s.standing(system, env))
	}
	b.WriteString("gives\n")
	for _, s := range f.Out {
		fmt.Fprintf(&b, "  %-*s  %s\n", wide, s.Key, s.Words)
	}
	b.WriteString("\n" + f.origin())
	return b.String()
}

// standing says whether an input may be left out, and what then holds.
func (s Symbol) standing(system unit.System, env unit.Env) string {
	choices := ""
	if len(s.Choices) > 0 {
		choices = ": " + strings.Join(s.Choices, ", ")
	}
	switch {
	case s.Word != "":
		return choices + "; " + s.Word + " unless given"
	case s.Default != nil:
		return choices + "; " + system.Text(s.Kind, *s.Default, env) + " unless given"
	case s.Optional:
		return choices + "; may be left out"
	}
	if strings.Contains(s.Words, "such as") {
		return choices // the words have better examples than the kind has
	}
	return choices + ", such as " + s.example()
}

// origin is the law, its range and its sources.
func (f Formula) origin() string {
	var b strings.Builder
	fmt.Fprintf(&b, "law     %s\n", f.Law)
	if f.Range != "" {
		fmt.Fprintf(&b, "holds   %s\n", f.Range)
	}
	for _, ref := range f.Cite {
		fmt.Fprintf(&b, "source  %s\n", ref.Text())
	}
	return b.String()
}
