package screen

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Kinds of field.
const (
	kindQuantity = "quantity"
	kindNumber   = "number"
	kindChoice   = "choice"
	kindSeveral  = "several"
	kindText     = "text"
	kindFlag     = "flag"
)

// yes is the value of a flag that is set; one that is not is "".
const yes = "yes"

// field makes a field of a place.
func (s *Shop) field(v *view, p *place) Field {
	f := Field{
		ID: string(p.id), Key: p.key, Words: wordsOf(p.Leaf), Doc: docOf(p.Leaf), Chosen: []string{}, Choices: []Choice{},
		Needed: p.Needed, Fixed: p.fixed(), More: p.seldom(),
	}
	raw, present, _ := document.Get(p.root, p.Path)
	if !present {
		raw = nil
	}
	choices, open := s.choices(p)
	f.Choices = nonNil(choices)
	m, measured := meterOf(p.Leaf)
	switch {
	case measured:
		s.measured(v, &f, p, m, raw)
	case p.Form == document.FormWords:
		f.Kind = kindSeveral
		_ = json.Unmarshal(raw, &f.Chosen) // written by the program: a list of texts
		f.Chosen = nonNil(f.Chosen)
		f.Value = strings.Join(f.Chosen, ",")
	case p.Form == document.FormFlag:
		f.Kind = kindFlag
		if string(raw) == "true" {
			f.Value = yes
		}
	case p.Form == document.FormText:
		f.Kind = kindText
		_ = json.Unmarshal(raw, &f.Value) // likewise: a text
		if len(choices) > 0 && !open {
			f.Kind = kindChoice
			f.Choices = withOwn(f.Choices, f.Value)
		}
	default:
		f.Kind, f.Hint = kindNumber, "2"
		f.Value, f.Range = string(raw), boundsIn(p.Leaf, func(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) })
	}
	if p.sec.kind != nil {
		f.Caution = s.partCaution(v, *p.sec.kind, p.Key, p.sec.tools)
	}
	if f.Value == "" {
		f.Default, f.From = s.fallback(v, p, m)
	}
	return f
}

// withOwn adds the value that stands there to choices that do not know it.
func withOwn(list []Choice, own string) []Choice {
	if own == "" || slices.ContainsFunc(list, func(c Choice) bool { return c.ID == own }) {
		return list
	}
	return append(list, Choice{ID: own, Words: own})
}

// meter is how a number of the file is a quantity.
type meter struct {
	kind unit.Kind
	si   func(file float64) float64
	file func(si float64) json.RawMessage
	flow bool // a flow with its reference, as on a plate
}

// meterOf is the meter of a place; ok is false for what has no unit.
func meterOf(l document.Leaf) (m meter, ok bool) {
	suffix, _ := unit.SuffixOf(l.Key)
	switch {
	case l.Form == document.FormObject:
		return meter{kind: unit.KindFlow, flow: true}, true
	case l.Form == document.FormQuantity:
		kind := l.Kind
		switch {
		case kind == unit.KindPressure && strings.HasSuffix(suffix, "_abs"):
			kind = unit.KindBarometer
		case l.Key == "K" || l.Key == "b" || l.Key == "test_factor":
			kind = unit.KindNumber // nobody says these in per cent
		}
		return meter{kind: kind, si: l.SI, file: l.File}, true
	case l.Form == document.FormNumber && suffix == "_m":
		same := func(x float64) float64 { return x }
		return meter{kind: unit.KindLength, si: same, file: l.File}, true
	case l.Form == document.FormNumber && suffix == "_1_h" && l.Of != "Labour": // money for an hour is no frequency
		const hour = 3600.0
		return meter{
			kind: unit.KindFrequency, si: func(x float64) float64 { return x / hour },
			file: func(x float64) json.RawMessage {
				const figures = 1e9 // what an hour's seconds leave of a double, rounded off
				return l.File(math.Round(x*hour*figures) / figures)
			},
		}, true
	}
	return meter{}, false
}

// measured fills in a field of a quantity.
func (s *Shop) measured(v *view, f *Field, p *place, m meter, raw []byte) {
	f.Kind = kindQuantity
	usual := v.typical(m.kind)
	if l, ok := usualLengths[p.Key]; ok {
		usual = l
	}
	one := usual
	if m.flow {
		var flow job.Flow
		if len(raw) > 0 {
			_ = document.Decode(raw, &flow) // written by the program
			one = flow.Value
			f.Value = v.typed(m, one)
			if flow.Reference != "" {
				f.Value += " " + flow.Reference
			}
			if flow.Read != "" {
				f.Doc = strings.TrimPrefix(f.Doc+"; on the plate: "+flow.Read, "; ")
			}
		}
	} else {
		if file, err := strconv.ParseFloat(string(raw), 64); err == nil {
			one = m.si(file)
			f.Value = v.typed(m, one)
		}
		f.Range = boundsIn(p.Leaf, func(x float64) string { return v.plain(m.kind, m.si(x)) })
	}
	if one == 0 {
		one = usual
	}
	_, f.Unit = v.system().Split(m.kind, one, v.env)
	f.Hint = v.system().Text(m.kind, usual, v.env)
}

// usualLengths are lengths far from those of a room, in m: what is typed without a
// unit counts in theirs. It is never written to.
var usualLengths = map[string]float64{"nozzle_mm": 0.003, "thickness_m": 0.2, "off_m": 0.05, "roughness_mm": 1.5e-5}

// system is the units in which figures are typed: mixed ones are metric here.
func (v *view) system() unit.System {
	if v.ask.System == unit.Mixed {
		return unit.Metric
	}
	return v.ask.System
}

// typical is a figure of a kind as shops have it, for hints.
func (v *view) typical(k unit.Kind) float64 {
	switch k {
	case unit.KindGauge:
		return 620e3
	case unit.KindPressureDiff:
		return 10e3
	case unit.KindBarometer:
		return float64(v.env.Atmosphere)
	case unit.KindFlow, unit.KindVolumeFlow:
		return 0.00472
	case unit.KindVolume:
		return 0.2
	case unit.KindTemperature:
		return 293.15
	case unit.KindTempDiff:
		return 10
	case unit.KindPower:
		return 4e3
	case unit.KindVelocity:
		return 6
	case unit.KindDuration:
		return 30
	case unit.KindRatio:
		return 0.1
	case unit.KindFrequency:
		return 10.0 / 3600
	case unit.KindConductance:
		return 2e-8
	}
	return 2.5
}

// typed is a figure as a person would type it: with trade rounding, or with more
// figures where a few more say exactly what the file has.
func (v *view) typed(m meter, si float64) string {
	text := v.system().Text(m.kind, si, v.env)
	reads := func(text string) bool {
		x, err := unit.Parse(text, m.kind, v.env)
		if m.flow {
			return err == nil && math.Abs(x-si) <= 1e-9*math.Abs(si)
		}
		return err == nil && string(m.file(x)) == string(m.file(si))
	}
	if reads(text) {
		return text
	}
	_, name := v.system().Split(m.kind, si, v.env)
	zero, err0 := unit.Parse("0 "+name, m.kind, v.env)
	one, err1 := unit.Parse("1 "+name, m.kind, v.env)
	if err0 != nil || err1 != nil || one == zero {
		return text
	}
	const most = 6 // figures: more are no longer a person's
	for figures := 2; figures <= most; figures++ {
		exact := strconv.FormatFloat((si-zero)/(one-zero), 'g', figures, 64)
		if !strings.Contains(exact, "e") && reads(exact+" "+name) {
			return exact + " " + name
		}
	}
	return text
}

// boundsIn words the bounds of a number.
func boundsIn(l document.Leaf, word func(file float64) string) string {
	least, most, over, hasLeast, hasMost := l.Bounds()
	switch {
	case hasLeast && hasMost && over:
		return "more than " + word(least) + ", at most " + word(most)
	case hasLeast && hasMost:
		return word(least) + " to " + word(most)
	case hasLeast && over:
		return "more than " + word(least)
	case hasLeast:
		return "at least " + word(least)
	case hasMost:
		return "at most " + word(most)
	}
	return ""
}
