package water_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// TestNothingIsLost: taken in = drained + carried out, for every shop and weather.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		j := boat(r)
		if rapid.Bool().Draw(r, "ring") {
			j = shoptest.Ring(rapid.IntRange(2, 6).Draw(r, "drops"))
		}
		winter := rapid.Float64Range(-40, 30).Draw(r, "winter")
		for i := range j.Building.Zones {
			j.Building.Zones[i].Winter = shoptest.To(unit.Celsius(winter))
		}
		for i := range j.Net.Points {
			if p := &j.Net.Points[i]; p.ID == "point.dryer" && rapid.Bool().Draw(r, "bed") {
				p.Part.Kind, p.Part.Item = "desiccant-dryer", "desiccant-dryer-30"
			}
		}
		ask := water.Ask{Humidity: shoptest.To(unit.Ratio(rapid.Float64Range(0, 1).Draw(r, "humidity")))}
		for _, s := range told(r, j, ask).Seasons {
			if off := s.In - s.Drained - s.Carried; math.Abs(off) > 1e-6*max(s.In, 1e-9) {
				r.Fatalf("%s: %g kg in, %g drained, %g carried", s.Name, s.In, s.Drained, s.Carried)
			}
			for _, f := range s.Falls {
				if !(f.Low >= 0 && f.Low <= f.Likely && f.Likely <= f.High) {
					r.Fatalf("%s: %+v", f.ID, f.Litres)
				}
			}
		}
	})
}

// TestWetterAirDrainsMore: more humidity never means less water drained or a lower dew point.
func TestWetterAirDrainsMore(t *testing.T) {
	j := boat(t)
	rapid.Check(t, func(r *rapid.T) {
		low := rapid.Float64Range(0.05, 0.9).Draw(r, "low")
		high := rapid.Float64Range(low, 1).Draw(r, "high")
		dry := told(r, j, water.Ask{Humidity: shoptest.To(unit.Ratio(low))})
		wet := told(r, j, water.Ask{Humidity: shoptest.To(unit.Ratio(high))})
		for i := range dry.Seasons {
			d, w := dry.Seasons[i], wet.Seasons[i]
			if w.Drained < d.Drained-1e-9 {
				r.Fatalf("%s: %g kg drained at %g, %g at %g", d.Name, d.Drained, low, w.Drained, high)
			}
			for k := range d.Outlets {
				if *w.Outlets[k].Dew < *d.Outlets[k].Dew-1e-6 {
					r.Fatalf("%s: dew point falls with humidity", d.Outlets[k].ID)
				}
			}
		}
	})
}

// dried is the boat shop with another dryer on its shelf.
func dried(t rapid.TB, kind, item string, plate *unit.Temperature) *job.Job {
	j := boat(t)
	for i := range j.Net.Points {
		if p := &j.Net.Points[i]; p.ID == "point.dryer" {
			p.Part.Kind, p.Part.Item, p.Part.DewPoint = kind, item, plate
			if item == "desiccant-dryer-30" {
				p.Part.Flow = &job.Flow{Value: 0.040, Reference: "iso1217"} // more than it is asked for
			}
		}
	}
	return j
}

// TestDryers: a plate's own figure overrides the row's, a bed blows off air that the
// compressors must bring, and what cannot dry takes nothing.
func TestDryers(t *testing.T) {
	bed := told(t, dried(t, "desiccant-dryer", "desiccant-dryer-30", nil), water.Ask{}).Seasons[1].Dryers[0]
	if math.Abs(bed.Out.Celsius()+40) > 0.01 || math.Abs(float64(bed.Purge)-0.15*0.040) > 1e-9 {
		t.Errorf("%+v", bed)
	}
	own := told(t, dried(t, "desiccant-dryer", "desiccant-dryer-30", shoptest.To(unit.Celsius(-55))), water.Ask{}).Seasons[1].Dryers[0]
	if math.Abs(own.Out.Celsius()+55) > 0.01 {
		t.Errorf("the plate says -55 °C, it leaves %.2f", own.Out.Celsius())
	}
	without := told(t, dried(t, "desiccant-dryer", "desiccant-dryer-30", nil), water.Ask{Purge: shoptest.To(unit.Ratio(0))})
	with := told(t, dried(t, "desiccant-dryer", "desiccant-dryer-30", nil), water.Ask{Purge: shoptest.To(unit.Ratio(0.1))})
	if got := with.Mean - without.Mean; math.Abs(got-0.004) > 1e-9 {
		t.Errorf("a purge of a tenth of 40 L/s costs %.4g m³/s", got)
	}
	wet := told(t, dried(t, "refrigerated-dryer", "refrigerated-dryer-30", shoptest.To(unit.Celsius(60))), water.Ask{}).Seasons[1].Dryers[0]
	if !wet.Untaking || float64(*wet.Out) >= float64(wet.Stated) {
		t.Errorf("a dew point over that of the air that comes: %+v", wet)
	}
	small := told(t, dried(t, "refrigerated-dryer", "refrigerated-dryer-6", nil), water.Ask{}).Seasons[1].Dryers[0]
	if small.Out.Celsius() < 10 || small.Flow <= small.Able {
		t.Errorf("overloaded, it leaves %.2f °C", small.Out.Celsius())
	}
}

// TestBadInput: what cannot be used is said, and what is missing is supposed aloud.
func TestBadInput(t *testing.T) {
	for _, ask := range []water.Ask{
		{Hours: -1},
		{Hours: 25},
		{Hours: math.NaN()},
		{Humidity: shoptest.To(unit.Ratio(1.2))},
		{Purge: shoptest.To(unit.Ratio(-0.1))},
		{Purge: shoptest.To(unit.Ratio(1))},
	} {
		if a := of(t, boat(t), ask); a.Untold == "" {
			t.Errorf("%+v was taken", ask)
		}
	}
	a := told(t, shoptest.Line(10, 0.005), water.Ask{})
	all := strings.Join(a.Supposed, "; ")
	for _, want := range []string{"outside in the cold season", "8 hours a day", "85 % relative humidity", "places of no zone: 20 °C"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not said: %s", want, all)
		}
	}
	if a := of(t, &job.Job{Version: job.Version}, water.Ask{}); a.Untold != "no compressor feeds the net" {
		t.Errorf("%q", a.Untold)
	}
}

// TestNothingRuns: a shop that takes no air takes in no water, and still tells its lines.
func TestNothingRuns(t *testing.T) {
	j := shoptest.Line(10, 0.005)
	j.Tools[0].Share, j.Rules.Leak = shoptest.To(unit.Ratio(0)), shoptest.To(unit.Ratio(0))
	for _, s := range told(t, j, water.Ask{}).Seasons {
		if s.In != 0 || s.Drained != 0 || s.Carried != 0 || len(s.Falls) != 0 {
			t.Errorf("%+v", s)
		}
	}
}

// TestMeanIsTheDemands: a tool's share of its flow, with the leaks on top.
func TestMeanIsTheDemands(t *testing.T) {
	j := shoptest.Line(10, 0.005) // runs a fifth of the time; 20 L/s, of which a tenth leaks
	if got := told(t, j, water.Ask{}).Mean; math.Abs(got-0.003) > 1e-9 {
		t.Errorf("%g m³/s in the mean, wanted 1 L/s of the tool and 2 L/s of leaks", got)
	}
}

// TestCartridgeAtTheOutlet: a dryer that hangs at one outlet, without an id, dries that one alone.
func TestCartridgeAtTheOutlet(t *testing.T) {
	plain, j := told(t, boat(t), water.Ask{}).Seasons[1], boat(t)
	for i := range j.Outlets {
		if o := &j.Outlets[i]; o.ID == "outlet.spray" {
			o.Hang = append([]job.Part{{Kind: "desiccant-dryer", Item: "desiccant-cartridge-1/2"}}, o.Hang...)
		}
	}
	s := told(t, j, water.Ask{}).Seasons[1]
	for i, o := range s.Outlets {
		if o.ID == "outlet.spray" {
			if o.Class != "3" || math.Abs(o.Dew.Celsius()+20) > 0.1 {
				t.Errorf("behind a cartridge of -20 °C: class %s, %.2f °C", o.Class, o.Dew.Celsius())
			}
		} else if o.Class != plain.Outlets[i].Class {
			t.Errorf("%s: class %s, was %s", o.ID, o.Class, plain.Outlets[i].Class)
		}
	}
}

// TestClaims: what the parts on every way to an outlet claim holds there, of the airs that
// meet the worse, and a lubricator ends a claim for oil.
func TestClaims(t *testing.T) {
	j := boat(t)
	at := func(j *job.Job) map[job.ID]water.Claim {
		out := map[job.ID]water.Claim{}
		for _, o := range told(t, j, water.Ask{}).Seasons[0].Outlets {
			out[o.ID] = o.Claim
		}
		return out
	}
	both := water.Claim{Particles: "1", ParticlesBy: "point.coalescing", Oil: "1", OilBy: "point.coalescing"}
	for id, got := range at(j) {
		if got != both { // the plant's coalescing filter stands before every outlet
			t.Errorf("%s: %+v, want %+v", id, got, both)
		}
	}
	for i := range j.Net.Points {
		switch p := &j.Net.Points[i]; p.ID {
		case "point.coalescing": // its maker claims less
			p.Part.Particle, p.Part.Oil = "3", "2"
		case "point.bypass":
			p.Part.Shut = false
		}
	}
	for i := range j.Outlets {
		if o := &j.Outlets[i]; o.ID == "outlet.bench" {
			o.Hang = append([]job.Part{{ID: "part.oiler", Kind: "lubricator", Item: "lubricator-1/2", Size: "1/2"}}, o.Hang...)
		}
	}
	got := at(j)
	if want := (water.Claim{Particles: "3", ParticlesBy: "point.coalescing", Oiled: "part.oiler"}); got["outlet.bench"] != want {
		t.Errorf("behind a lubricator: %+v, want %+v", got["outlet.bench"], want)
	}
	if got["outlet.saw"].Oil != "2" || got["outlet.spray"].Oil != "1" {
		t.Errorf("stated claims: saw %+v, spray behind a filter of its own %+v", got["outlet.saw"], got["outlet.spray"])
	}
}

// TestBedLasts: a filling takes 15 % of its weight, by the water that nothing else takes
// (common practice, no source; the sum is by hand from the answer's own litres a day).
func TestBedLasts(t *testing.T) {
	j := boat(t)
	for i := range j.Outlets {
		if o := &j.Outlets[i]; o.ID == "outlet.spray" {
			o.Hang = append([]job.Part{{ID: "part.bed", Kind: "desiccant-dryer", Item: "desiccant-cartridge-1/2", Size: "1/2", Desiccant: shoptest.To(unit.Mass(2))}}, o.Hang...)
		}
	}
	found := false
	for _, s := range told(t, j, water.Ask{}).Seasons {
		for _, d := range s.Dryers {
			if d.ID != "part.bed" || d.Takes.Likely == 0 {
				continue
			}
			found = true
			if want := 0.15 * 2 / (0.998 * d.Takes.Likely); d.Lasts == nil || math.Abs(d.Lasts.Likely-want) > 1e-9*want || !(d.Lasts.Low < want && want < d.Lasts.High) {
				t.Errorf("%s: lasts %+v, want %.3g days", s.Name, d.Lasts, want)
			}
		}
	}
	if !found {
		t.Error("the bed takes nothing in either season")
	}
}
