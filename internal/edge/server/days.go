package server

import (
	"bytes"
	"encoding/csv"
	"net/http"
	"strconv"
	"strings"

	"dropleg/internal/show/scene"
	"dropleg/internal/show/screen"
)

// getDays gives working days in words and charts; with rough=yes those of a few days, where
// no more are worked out yet.
func (s *Server) getDays(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	rough := on.query.word("rough", "yes") != ""
	if on.query.refused(w) {
		return
	}
	days, err := on.shop.Steady(r.Context(), on.ask, rough)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Days{on.stamp, days})
}

// getHour gives an hour of the first working day.
func (s *Server) getHour(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	hour, err := strconv.Atoi(r.PathValue("hour"))
	if err != nil {
		hour = -1
	}
	stretch, err := on.shop.Stretch(r.Context(), on.ask, hour)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Hour{on.stamp, stretch})
}

// getWater tells the water of the air, in both seasons.
func (s *Server) getWater(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	water, err := on.shop.Water(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Water{on.stamp, water})
}

// getCost tells a year's electricity.
func (s *Server) getCost(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	cost, err := on.shop.Cost(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Cost{on.stamp, cost})
}

// perMetre is millimetres to the metre: a chart's scene is paper itself.
const perMetre = 1000

// getChart gives a chart as a file to keep: day.svg, or its figures as day.csv (RFC 4180).
func (s *Server) getChart(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	name, form, _ := strings.Cut(r.PathValue("chart"), ".")
	if form != "svg" && form != "csv" {
		failWith(w, r, &screen.NotThere{ID: r.PathValue("chart")})
		return
	}
	chart, err := on.shop.Chart(r.Context(), on.ask, name)
	if err != nil {
		failWith(w, r, err)
		return
	}
	var b bytes.Buffer
	kind := "image/svg+xml"
	if form == "svg" {
		err = scene.WriteSVG(&b, chart.Scene, scene.Daylight(), perMetre, 4)
	} else {
		kind = "text/csv; charset=utf-8"
		err = csv.NewWriter(&b).WriteAll(chart.Rows)
	}
	if err != nil {
		failWith(w, r, err)
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+"."+form+`"`)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(b.Bytes()) // the reader has gone: nobody to tell
}
