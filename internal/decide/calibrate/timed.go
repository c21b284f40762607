package calibrate

import (
	"math"

	"dropleg/internal/decide/find"
)

// leakColumn fills in the slope by the leak.
func (v *view) leakColumn(s *sight, by float64) {
	for k, f := range v.figures {
		if f.what == Leak {
			s.by[k] = by * f.spread
		}
	}
}

// timed is ln of the flow that a time of filling or falling shows, nothing running.
func (v *view) timed(r *find.Reading) sight {
	leak := v.leakFrom((r.From + r.To) / 2)
	if r.Kind == find.Pressure || v.store.volume <= 0 || leak <= 0 {
		return sight{}
	}
	s := v.blank()
	change := math.Abs(float64(r.To - r.From))
	s.known, s.noise = true, v.doubts.Clock*v.doubts.Clock
	s.shown = math.Log(v.store.volume * change / (v.model.Gas().RT() * float64(r.Time)))
	*column(&s, colVolume) = v.doubts.Volume
	if r.Kind == find.Fall {
		s.mean = math.Log(leak)
		v.leakColumn(&s, 1)
		return s
	}
	full := v.store.supply
	net := max(full-leak, full/50)
	s.mean = math.Log(net)
	*column(&s, colPlate) = v.doubts.Plate * full / net
	v.leakColumn(&s, -leak/net)
	return s
}

// onOff is ln of the share of the supply that leaks, by the compressor's turns.
func (v *view) onOff(t *Timing) sight {
	if v.store.supply <= 0 || v.leak <= 0 || t.Share <= 0 {
		return sight{}
	}
	s := v.blank()
	noise := v.doubts.Clock
	if t.Cycles > 1 { // half the range of a few cycles is about one deviation of them
		noise = math.Hypot(noise, float64(t.Spread/t.Share)/math.Sqrt(float64(t.Cycles)))
	}
	s.known, s.noise = true, noise*noise
	s.shown, s.mean = math.Log(float64(t.Share)), math.Log(v.leak/v.store.supply)
	*column(&s, colPlate) = -v.doubts.Plate
	v.leakColumn(&s, 1)
	return s
}
