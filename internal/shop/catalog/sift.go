package catalog

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
)

// sifter collects what is wrong with rows.
type sifter struct {
	c        *Catalog // what the rows may lean on
	own      *Shelf
	path     string
	problems []document.Problem
}

// sift parts the rows that can be used from those that cannot.
func (c *Catalog) sift(own *Shelf) (Shelf, []document.Problem) {
	k := &sifter{c: c, own: own}
	good := Shelf{
		Kinds:     keep(k, Kinds, own.Kinds, kindID, k.kind),
		Joints:    keep(k, Joints, own.Joints, jointID, func(r Joint) { k.words(r.Words) }),
		Stocks:    keep(k, Stocks, own.Stocks, stockID, k.stock),
		Couplers:  keep(k, Couplers, own.Couplers, couplerID, k.coupler),
		Mates:     keep(k, "mates", own.Mates, func(r Mate) string { return r.Socket + " " + r.Plug }, k.mate),
		Hoses:     keep(k, Hoses, own.Hoses, hoseID, k.hose),
		Tools:     keep(k, Tools, own.Tools, toolID, k.tool),
		Machines:  keep(k, Machines, own.Machines, machineID, k.machine),
		Treatment: keep(k, Treatments, own.Treatment, treatID, k.treat),
		Threads:   keep(k, Threads, own.Threads, threadID, k.thread),
		TakeOuts:  keep(k, TakeOuts, own.TakeOuts, takeOutID, k.takeOut),
		Materials: keep(k, Materials, own.Materials, materialID, func(r Material) { k.span("alpha_1_K", r.Alpha) }),
		Turbulent: keep(k, "turbulent", own.Turbulent, turbulentID, k.turbulent),
	}
	return good, k.problems
}

// keep gives the rows of one shelf that have no problem; an id given twice is one.
func keep[T any](k *sifter, shelf string, rows []T, id func(T) string, check func(T)) []T {
	var good []T
	seen := map[string]bool{}
	for i, r := range rows {
		name, before := id(r), len(k.problems)
		k.path = fmt.Sprintf("%s[%d] (%s)", shelf, i, name)
		k.want(strings.TrimSpace(name) != "", "", "no id", "an id", "")
		k.want(!seen[name], "", name+" a second time", "each id once", "")
		seen[name] = true
		check(r)
		if len(k.problems) == before {
			good = append(good, r)
		}
	}
	return good
}

// want notes a problem at a key of the present row unless ok.
func (k *sifter) want(ok bool, key, read, want, nearest string) {
	if ok {
		return
	}
	path := k.path
	if key != "" {
		path += "." + key
	}
	k.problems = append(k.problems, document.Problem{Path: path, Read: read, Want: want, Nearest: nearest})
}

// above wants a finite figure above nought.
func (k *sifter) above(key string, value float64) {
	k.want(value > 0 && !math.IsInf(value, 0), key, figure(value), "a figure above 0", "")
}

// within wants a figure between two others.
func (k *sifter) within(key string, value, low, high float64) {
	k.want(value >= low && value <= high, key, figure(value), "a figure from "+figure(low)+" to "+figure(high), "")
}

// span wants low, value and high in order and above nought.
func (k *sifter) span(key string, s Span) {
	k.above(key+".value", s.Value)
	k.want(s.Low >= 0 && s.Low <= s.Value && s.Value <= s.High, key, figure(s.Low)+", "+figure(s.Value)+", "+figure(s.High), "low, value and high in order", "")
}

// one wants a word of a list.
func (k *sifter) one(key, word string, of []string) {
	k.want(slices.Contains(of, word), key, strconv.Quote(word), "one of "+strings.Join(of, ", "), unit.Nearest(word, of))
}

func (k *sifter) words(w map[string]string) {
	k.want(w["en"] != "", "words", "no English name", "words with the key en", "")
}

func figure(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

func (k *sifter) kind(r Kind) {
	k.words(r.Words)
	k.one("group", string(r.Group), texts(Groups()))
	for _, role := range r.Roles {
		k.one("roles", string(role), texts(Roles()))
	}
	k.one("law.name", r.Law.Name, Laws())
	k.want(len(r.Ports) > 0, "ports", "none", "at least one port", "")
	seen := map[string]bool{}
	for i, p := range r.Ports {
		key := fmt.Sprintf("ports[%d]", i)
		k.want(p.ID != "" && !seen[p.ID], key+".id", strconv.Quote(p.ID), "an id of its own", "")
		seen[p.ID] = true
		long := math.Hypot(math.Hypot(p.Toward[0], p.Toward[1]), p.Toward[2])
		k.want(math.Abs(long-1) < 1e-9, key+".toward", figure(long), "a direction of length 1", "")
		k.one(key+".joint", p.Joint, PortJoints())
		k.one(key+".size", p.Size, []string{"", "branch"})
	}
}

func (k *sifter) stock(r Stock) {
	k.one("fit_for_air", r.FitForAir, []string{"yes", "no", "limited"})
	k.want(r.FitForAir == "yes" || r.Why != "", "why", "nothing", "the reason, where a stock is not plainly fit", "")
	k.one("corners", r.Corners, []string{"elbow", "sweep"})
	k.one("form", r.Form, []string{"stick", "coil", "hose"})
	k.span("roughness_m", r.Roughness)
	if r.InsertBore != nil {
		k.span("insert_bore", *r.InsertBore)
		k.within("insert_bore.high", r.InsertBore.High, 0, 1)
	}
	joints := slices.Concat(k.c.IDs(Joints), k.own.ids(Joints))
	k.want(len(r.Joining) > 0, "joining", "none", "at least one way of joining", "")
	for _, j := range r.Joining {
		k.one("joining", j, joints)
	}
	for i, l := range r.Lengths {
		k.above(fmt.Sprintf("lengths_m[%d]", i), float64(l))
	}
	for i, rating := range r.Ratings {
		k.rating(fmt.Sprintf("ratings[%d]", i), rating)
	}
	k.want(len(r.Sizes) > 0, "sizes", "none", "at least one size", "")
	seen := map[string]bool{}
	for i, z := range r.Sizes {
		key := fmt.Sprintf("sizes[%d]", i)
		k.want(z.Size != "" && !seen[z.Size], key+".size", strconv.Quote(z.Size), "a name of its own", "")
		seen[z.Size] = true
		k.size(key, z)
	}
}

func (k *sifter) size(key string, z Size) {
	k.above(key+".bore_m", float64(z.Bore))
	k.above(key+".wall_m", float64(z.Wall))
	// Published tables round each figure; a tenth of a millimetre and 1 % is more than they do.
	gap := math.Abs(float64(z.Outside - z.Bore - 2*z.Wall))
	k.want(gap <= 1e-4+0.01*float64(z.Outside), key+".outside_m", figure(float64(z.Outside)), "bore and twice the wall: "+figure(float64(z.Bore+2*z.Wall)), "")
	for i, rating := range z.Ratings {
		k.rating(fmt.Sprintf("%s.ratings[%d]", key, i), rating)
	}
	for i, row := range z.Spacing {
		k.one(fmt.Sprintf("%s.spacing[%d].direction", key, i), row.Direction, []string{"horizontal", "vertical"})
		k.above(fmt.Sprintf("%s.spacing[%d].distance_m", key, i), float64(row.Distance))
	}
}

func (k *sifter) rating(key string, r Rating) {
	k.one(key+".of", r.Of, []string{"line", "joint"})
	n := len(r.TempC)
	k.want(n > 0 && n == len(r.Pressure), key+".pressure_kPa_g", fmt.Sprintf("%d temperatures, %d pressures", n, len(r.Pressure)), "as many of each, one at least", "")
	for i, p := range r.Pressure {
		k.above(fmt.Sprintf("%s.pressure_kPa_g[%d]", key, i), float64(p))
	}
	for i := 1; i < n; i++ {
		k.want(r.TempC[i] > r.TempC[i-1], fmt.Sprintf("%s.temp_C[%d]", key, i), figure(r.TempC[i]), "temperatures that rise", "")
	}
}

func (k *sifter) coupler(r Coupler) {
	k.above("C_m3_s_Pa", float64(r.C))
	k.want(r.CLow >= 0 && r.CLow <= r.C && r.C <= r.CHigh, "C_low_m3_s_Pa", figure(float64(r.CLow)), "low, figure and high in order", "")
	k.within("b", r.B, 0, 0.99)
	k.above("rating_kPa_g", float64(r.Rating))
}

func (k *sifter) mate(r Mate) { k.one("mates", r.Mates, []string{"yes", "no", "looks-like"}) }

func (k *sifter) hose(r Hose) {
	k.above("bore_m", float64(r.Bore))
	k.want(r.Outside > r.Bore, "outside_m", figure(float64(r.Outside)), "more than the bore", "")
	k.span("roughness_m", r.Roughness)
	k.span("end_bore", r.EndBore)
	k.within("end_bore.high", r.EndBore.High, 0, 1)
	k.above("rating_kPa_g", float64(r.Rating))
}

func (k *sifter) tool(r Tool) {
	k.span("free_air_m3_s", r.Flow)
	k.above("at_kPa_g", float64(r.At))
	k.above("least_kPa_g", float64(r.Least))
	k.want(r.Most == 0 || r.Most >= r.Least, "most_kPa_g", figure(float64(r.Most)), "no less than the least", "")
	k.within("nozzle_m", float64(r.Nozzle), 0, 0.1)
	k.span("share", r.Share)
	k.within("share.high", r.Share.High, 0, 1)
	k.above("burst_s", float64(r.Burst))
}

func (k *sifter) machine(r Machine) {
	k.above("power_kW", float64(r.Power))
	k.span("free_air_m3_s", r.FreeAir)
	k.above("at_kPa_g", float64(r.At))
	k.want(r.CutOut > r.CutIn && r.CutIn > 0, "cut_out_kPa_g", figure(float64(r.CutOut)), "above the cut-in, both above 0", "")
	k.one("control", r.Control, []string{"start-stop", "load-unload", "speed"})
	k.within("stages", float64(r.Stages), 1, 4)
	k.within("duty_most", r.DutyMost, 0, 1)
}

func (k *sifter) treat(r Treat) {
	k.one("kind", r.Kind, slices.Concat(k.c.IDs(Kinds), k.own.ids(Kinds)))
	if r.Particles != "" {
		k.one("particle_class", r.Particles, []string{"0", "1", "2", "3", "4", "5", "6", "7", "X"})
	}
	if r.Oil != "" {
		k.one("oil_class", r.Oil, []string{"0", "1", "2", "3", "4", "X"})
	}
	k.want(r.Loaded >= r.Clean, "loaded_kPa", figure(float64(r.Loaded)), "no less than clean", "")
	k.within("b", r.B, 0, 0.99)
	k.want(r.RatedFlow == 0 || r.RatedFlow > 0 && r.RatedAt > 0, "rated_at_kPa_g", figure(float64(r.RatedAt)), "the pressure of the rated flow", "")
}

func (k *sifter) thread(r Thread) {
	k.above("threads_per_inch", r.PerInch)
	k.above("pitch_diameter_m", float64(r.GaugeDia))
	k.above("hand_tight_m", float64(r.HandTight))
	k.above("effective_m", float64(r.Effective))
}

func (k *sifter) takeOut(r TakeOut) {
	k.want(r.TakeOut >= 0 && r.Insert >= 0, "take_out_m", figure(float64(r.TakeOut)), "0 or more", "")
}

func (k *sifter) turbulent(r TurbulentFactor) {
	k.above("bore_m", float64(r.Bore))
	k.within("fT", r.FT, 0.001, 1)
}

func texts[T ~string](words []T) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = string(w)
	}
	return out
}
