package purchase

import "time"

// Customs of cutting, common practice without a source. A tube cutter rolls its cut and
// takes nothing away; a saw takes the width of its blade; the end of a stick as it comes
// is square enough to be used.
const (
	sawKerf    = 0.002           // m, of sticks: hand saw or chop saw
	coilKerf   = 0.0             // m, of coils: shears or a tube cutter
	endTrim    = 0.0             // m
	mostSought = 4 * time.Second // for proofs of all cuts and baskets of one job
	leastEnd   = 1.0             // m, an end that is worth joining
	mostJoined = 12              // pieces that a joint is thought of in, the longest
	leastRest  = 0.5             // m, an open end that is worth a name
	mostKits   = 2               // times that one kit with lines in it is thought of
	mostMixed  = 60              // choices of such kits that are tried
	centimetre = 0.01
)
