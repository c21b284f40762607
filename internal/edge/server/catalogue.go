package server

import (
	"net/http"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// getCatalogue lists the built-in catalogue for the pickers of the page.
func (s *Server) getCatalogue(w http.ResponseWriter, r *http.Request) {
	ask, q := readAsk(r)
	if q.refused(w) {
		return
	}
	system := ask.System
	if system == "" {
		system = unit.Metric
	}
	send(w, r, catalogueOf(catalog.Builtin(), system))
}

// getJobCatalogue lists it with the job's own rows on top, in the job's units.
func (s *Server) getJobCatalogue(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	system := on.ask.System
	if system == "" {
		system, _ = unit.ParseSystem(on.now.Study.Job().Site.Units) // metric where it says nothing
	}
	send(w, r, catalogueOf(on.now.Study.Catalog(), system))
}

func catalogueOf(shelf *catalog.Catalog, system unit.System) Catalogue {
	say := worder{system}
	return Catalogue{
		Kinds: rowsOf(shelf.Kinds(), kindRow), Stocks: rowsOf(shelf.Stocks(), stockRow),
		Joints:   rowsOf(shelf.Joints(), func(j catalog.Joint) CatalogueItem { return CatalogueItem{ID: j.Joint, Words: j.Words["en"]} }),
		Couplers: rowsOf(shelf.Couplers(), couplerRow), Hoses: rowsOf(shelf.Hoses(), hoseRow),
		Tools: rowsOf(shelf.Tools(), say.tool), Machines: rowsOf(shelf.Machines(), say.machine),
		Treatment: rowsOf(shelf.Treatment(), say.treat),
	}
}

func rowsOf[T, R any](of []T, row func(T) R) []R {
	out := make([]R, 0, len(of))
	for _, t := range of {
		out = append(out, row(t))
	}
	return out
}

func kindRow(k catalog.Kind) CatalogueKind {
	out := CatalogueKind{
		ID: k.Kind, Words: k.Name("en"), Group: string(k.Group), Roles: []string{}, FixesTo: k.FixesTo, Symbol: k.Symbol,
		Ports: []CataloguePort{}, Needs: append([]string{}, k.Needs...),
	}
	for _, r := range k.Roles {
		out.Roles = append(out.Roles, string(r))
	}
	for _, p := range k.Ports {
		out.Ports = append(out.Ports, CataloguePort{ID: p.ID, Toward: p.Toward, Joint: p.Joint, Branch: p.Size == "branch"})
	}
	return out
}

// millimetre in metres.
const millimetre = 1e-3

func stockRow(s catalog.Stock) CatalogueStock {
	out := CatalogueStock{
		ID: s.Stock, Words: s.Words, Form: s.Form, Corners: s.Corners, Joining: append([]string{}, s.Joining...),
		Fit: s.FitForAir, Why: s.Why, Sizes: []CatalogueSize{},
	}
	for _, z := range s.Sizes {
		out.Sizes = append(out.Sizes, CatalogueSize{Size: z.Size, Bore: float64(z.Bore) / millimetre, Outside: float64(z.Outside) / millimetre})
	}
	return out
}

func couplerRow(c catalog.Coupler) CatalogueCoupler {
	return CatalogueCoupler{ID: c.Coupler, Words: c.Words, Profile: c.Profile, Body: c.Body, SocketOnly: c.SocketOnly}
}

func hoseRow(h catalog.Hose) CatalogueHose {
	return CatalogueHose{ID: h.Hose, Words: h.Words, Line: h.Line, Size: h.Size, Bore: float64(h.Bore) / millimetre}
}

// worder puts figures of the catalogue into words.
type worder struct{ system unit.System }

func (w worder) text(k unit.Kind, si float64) string { return w.system.Text(k, si, unit.Env{}) }

func (w worder) tool(t catalog.Tool) CatalogueItem {
	facts := "needs " + w.text(unit.KindGauge, float64(t.Least))
	if t.Flow.Value > 0 {
		facts = w.text(unit.KindFlow, t.Flow.Value) + " at " + w.text(unit.KindGauge, float64(t.At)) + ", " + facts
	} else if t.Nozzle > 0 {
		facts = "open nozzle of " + w.text(unit.KindLength, float64(t.Nozzle)) + ", " + facts
	}
	return CatalogueItem{ID: t.Tool, Words: t.Words, Facts: facts}
}

func (w worder) machine(m catalog.Machine) CatalogueItem {
	facts := w.text(unit.KindPower, float64(m.Power)) + ", " + w.text(unit.KindFlow, m.FreeAir.Value) + " at " + w.text(unit.KindGauge, float64(m.At))
	if m.Receiver > 0 {
		facts += ", receiver " + w.text(unit.KindVolume, float64(m.Receiver))
	}
	return CatalogueItem{ID: m.Machine, Words: m.Words, Facts: facts}
}

func (w worder) treat(t catalog.Treat) CatalogueTreat {
	out := CatalogueTreat{ID: t.Item, Kind: t.Kind, Words: t.Words, Size: t.Size}
	if t.RatedFlow > 0 {
		out.Facts = w.text(unit.KindFlow, float64(t.RatedFlow)) + " at " + w.text(unit.KindGauge, float64(t.RatedAt))
	}
	return out
}
