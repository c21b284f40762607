package server

import (
	"net/http"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/show/screen"
)

// coarsest is the worst gauge that is believed, Pa: no reading of one so bad tells anything.
const coarsest = 2e5

// postCalibration sets roughness, filters and leak by the readings of the records, and
// changes nothing. The answer is one JSON to the line: how far it is, and at last what came
// of it. Who hangs up ends the work.
func (s *Server) postCalibration(w http.ResponseWriter, r *http.Request) {
	var body CalibrateBody
	if !readJSON(w, r, &body) {
		return
	}
	wish := screen.CalibrateWish{Gauge: unit.PressureDiff(body.Gauge)}
	if !(body.Gauge >= 0 && body.Gauge <= coarsest) {
		fail(w, http.StatusBadRequest, "the request cannot be used", "gauge_Pa: want what a gauge is good to, above 0, at most 200 kPa; 0 for a usual one")
		return
	}
	if body.Since != "" {
		day, err := time.ParseInLocation(time.DateOnly, body.Since, time.Local)
		if err != nil {
			fail(w, http.StatusBadRequest, "the request cannot be used", "since: want a day such as 2026-11-26")
			return
		}
		wish.Since = day
	}
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	say := lines[Calibrated](w)
	found, err := on.shop.Calibrate(r.Context(), on.ask, wish, func(done, total int) {
		say(Calibrated{Stamp: on.stamp, Doing: "comparing with the readings", Done: done, Total: total})
	})
	if err != nil {
		say(Calibrated{Stamp: on.stamp, Fault: err.Error()})
		return
	}
	say(Calibrated{Stamp: on.stamp, Found: &found})
}
