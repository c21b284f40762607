package water

import (
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Claim is how clean the makers of the parts on the way say that the air is: a class of
// ISO 8573-1 for particles and one for oil, and the parts that claim them. Nothing here is
// worked out: what lines shed behind the last filter, and oil that passes as vapour, no
// claim knows. "" is no claim.
type Claim struct {
	Particles   string `json:"particle_class,omitempty"`
	ParticlesBy job.ID `json:"particle_class_by,omitempty"`
	Oil         string `json:"oil_class,omitempty"`
	OilBy       job.ID `json:"oil_class_by,omitempty"`
	// Oiled is a lubricator that the air passed since.
	Oiled job.ID `json:"oiled_by,omitempty"`
}

// cleaner says whether a class is cleaner than another; any is cleaner than no claim.
func cleaner(a, b string) bool { return a != "" && (b == "" || a < b) }

// claims a class for what has passed a part, where it is better than what came.
func (k *Claim) pass(id job.ID, particles, oil string) {
	if cleaner(particles, k.Particles) {
		k.Particles, k.ParticlesBy = particles, id
	}
	if cleaner(oil, k.Oil) {
		k.Oil, k.OilBy, k.Oiled = oil, id, ""
	}
}

// join is what can be claimed of two airs together: the worse of each.
func (k *Claim) join(o Claim) {
	if cleaner(k.Particles, o.Particles) {
		k.Particles, k.ParticlesBy = o.Particles, o.ParticlesBy
	}
	if cleaner(k.Oil, o.Oil) {
		k.Oil, k.OilBy = o.Oil, o.OilBy
	}
	if k.Oiled == "" {
		k.Oiled = o.Oiled
	}
}

// clean takes what is claimed of the air through an element that is no line.
func (w *shop) clean(e *model.Element, k *Claim) {
	part := w.partOf(e)
	if part == nil {
		return
	}
	if kind, _ := w.ground.shelf.Kind(part.Kind); kind.Has(catalog.Lubricates) {
		k.Oil, k.OilBy, k.Oiled = "", "", e.ID
	}
	particles, oil := w.claimed(part)
	k.pass(e.ID, particles, oil)
}

// claimed is what a part's maker claims, else what parts of its catalogue row are sold as.
func (w *shop) claimed(p *job.Part) (particles, oil string) {
	row, _ := w.ground.shelf.Treat(p.Item)
	particles, oil = row.Particles, row.Oil
	if p.Particle != "" {
		particles = p.Particle
	}
	if p.Oil != "" {
		oil = p.Oil
	}
	return particles, oil
}

// reaches says whether a class that is claimed is as clean as what is wanted.
func reaches(got, want string) bool {
	return want == "" || want == "X" || got != "" && got <= want
}
