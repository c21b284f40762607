package screen

import (
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// heldOrigin says why the receivers stand where they stand.
func (s *Shop) heldOrigin(v *view) *Origin {
	o := from("Held by the compressor's switch", "the case shown: cut-in is the lowest that the receiver falls to, cut-out the highest that it is filled to")
	for _, c := range v.model.Compressors() {
		o.Inputs = append(o.Inputs, s.named(c.ID)+": "+v.plain(unit.KindGauge, float64(c.CutIn))+" to "+v.plain(unit.KindGauge, float64(c.CutOut)))
		s.assumedOf(v, o, c.ID, "cut_in", "cut_out")
	}
	return o
}

// assumedOf adds the figures of a thing that were taken for want of better, by the
// first part of their keys, and the range of the first that has one.
func (s *Shop) assumedOf(v *view, o *Origin, id job.ID, stems ...string) {
	for _, a := range v.model.Assumptions() {
		if a.ID != id || !oneOf(stem(a.Key), stems) {
			continue
		}
		o.Inputs = append(o.Inputs, "not stated; "+a.Words+": "+v.assumed(a))
		o.by(a.Ref)
		if a.High > a.Low && o.Range == notKnown {
			at := func(x float64) string { return v.figure(job.Figure{Key: a.Key, Value: x}) }
			o.Range = at(a.Low) + " to " + at(a.High)
		}
	}
}

// stem is a key without its unit.
func stem(key string) string {
	suffix, _ := unit.SuffixOf(key)
	return strings.TrimSuffix(key, suffix)
}

func oneOf(word string, words []string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

// deliveredOrigin says where the compressors' flow comes from.
func (s *Shop) deliveredOrigin(v *view) *Origin {
	o := from("Free air delivered", "of every compressor: its timed pump-up m = V (p2 - p1) / (R T t) where there is one, else its plate, its displacement, its class, its motor; summed")
	for _, c := range v.model.Compressors() {
		o.Inputs = append(o.Inputs, s.named(c.ID)+": "+v.plain(unit.KindFlow, float64(c.FreeAir)))
		s.assumedOf(v, o, c.ID, "free_air")
	}
	if len(v.model.Compressors()) > 1 {
		o.Range = notKnown // of one of several, not of their sum
	}
	return o
}

// compressorOrigin is deliveredOrigin of one compressor.
func (s *Shop) compressorOrigin(v *view, c model.Compressor, plate *job.Compressor) *Origin {
	var o *Origin
	switch {
	case plate != nil && plate.PumpUp != nil:
		o = from("Timed pump-up", "m = V (p2 - p1) / (R T t): isothermal fill at 20 °C, every outlet shut",
			"volume V "+v.plain(unit.KindVolume, float64(plate.PumpUp.Volume)),
			"from p1 "+v.plain(unit.KindGauge, float64(plate.PumpUp.From)), "to p2 "+v.plain(unit.KindGauge, float64(plate.PumpUp.To)),
			"time t "+v.plain(unit.KindDuration, float64(plate.PumpUp.Time)))
	case plate != nil && plate.FreeAir != nil:
		o = s.plateOrigin(plate.FreeAir)
	default:
		o = from("Taken from its class", "no plate figure and no timed pump-up is stated")
	}
	s.assumedOf(v, o, c.ID, "free_air")
	return o
}

// plateOrigin is a flow as it stood on a plate.
func (s *Shop) plateOrigin(f *job.Flow) *Origin {
	o := from("Plate", "as stated, brought to dry air at 100 kPa and 20 °C (ISO 1217)")
	if f.Read != "" {
		o.Inputs = append(o.Inputs, "read on the plate: "+f.Read)
	}
	if ref := or(f.Reference, s.job.Site.FlowAt); ref != "" {
		o.Inputs = append(o.Inputs, "reference: "+choiceWords("reference", ref))
	}
	return o
}

// leakOrigin is the allowance of the rules.
func (s *Shop) leakOrigin(v *view) *Origin {
	r := s.job.RuleLeak()
	o := from("Allowance", "share of what the compressors deliver", "share "+v.plain(unit.KindRatio, float64(r.Value)))
	if r.Stated {
		o.Inputs = append(o.Inputs, "stated in the job's rules")
		return o
	}
	o.Inputs = append(o.Inputs, r.Default.Words)
	return o.by(r.Default.Ref)
}

// takenOrigin says what a tool draws.
func (s *Shop) takenOrigin(v *view, id job.ID) *Origin {
	o := from("Flow of a tool by its pressure", "an open nozzle or motor draws with the absolute pressure at its inlet, from its rated flow at its rated pressure; a tool marked constant draws its rated flow")
	for _, t := range v.model.Tools() {
		if t.ID != id {
			continue
		}
		o.Inputs = append(o.Inputs, "rated flow "+v.plain(unit.KindFlow, float64(t.FreeAir))+" at "+v.plain(unit.KindGauge, float64(t.Rated)))
		o.Range = v.between(unit.KindFlow, float64(t.Low), float64(t.High))
		if o.Range != notKnown {
			o.Range += " at its rated pressure"
		}
	}
	s.assumedOf(v, o, id, "free_air", "nozzle", "at")
	return o
}

// toolFigure is a figure of a tool: stated, or of its class.
func (s *Shop) toolFigure(v *view, id job.ID, key string) *Origin {
	o := from("Taken for want of better", "the job does not state it")
	s.assumedOf(v, o, id, key)
	if len(o.Inputs) == 0 {
		return stated()
	}
	return o
}
