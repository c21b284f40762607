package find

import (
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// OfJob takes the readings out of a job's records; lost says in words what could not be
// used and why.
func OfJob(j *job.Job, m *model.Model) (all []Reading, lost []string) {
	return ofJob(j, func(r Reading) *Unusable { return usable(m, r) })
}

// Usable is nil where a reading tells something as it stands.
func (r Reading) Usable(m *model.Model) *Unusable { return usable(m, r) }

// Node is where a gauge sits in the network; -1 where it cannot.
func (p Place) Node(m *model.Model) int { return nodeOf(m, p) }

// Doubts are how well instruments, plates and volumes are taken to be known.
type Doubts struct {
	Gauge  float64 // Pa: independent error of a reading against the receiver's
	Bias   float64 // Pa: standing difference of the two gauges
	Plate  float64 // ln of what a compressor delivers
	Volume float64 // ln of the volume that fills and falls
	Clock  float64 // ln of a time read
}

// Known are the doubts that causes are weighed with.
func Known() Doubts { return Doubts{gauge, bias, plateDoubt, volumeDoubt, clockDoubt} }

// LeastDoubt is how well any loss or tool is known at best, as ln of what passes.
const LeastDoubt = leastDoubt
