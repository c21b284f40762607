package server

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"sync"
	"time"

	"dropleg/internal/decide/find"
	"dropleg/internal/edge/desk"
	"dropleg/web"
)

// Server shows the jobs of a desk.
type Server struct {
	desk     *desk.Desk
	trouble  string
	follow   map[string]*follower // by the job that follows
	poll     time.Duration
	shops    shops
	pasts    pasts
	minds    find.Memory // what is known of faults, from one reading to the next
	drawn    drawn
	listener net.Listener
	secure   net.Listener // over TLS for the network; nil: the listener serves all
	network  *network     // nil: this computer alone
	handler  http.Handler
	ending   chan struct{} // closed when Run ends: event streams let go
}

// New takes the address and makes everything ready. The caller must Run it, or Close it.
func New(o Options) (*Server, error) {
	if o.Desk == nil {
		return nil, errors.New("there is no desk whose jobs to show")
	}
	pairing := o.pairing()
	l, err := listen(o, pairing.Port)
	if err != nil {
		return nil, err
	}
	s := &Server{
		desk: o.Desk, trouble: o.Trouble, follow: map[string]*follower{}, poll: o.Poll,
		listener: l, ending: make(chan struct{}),
	}
	if o.Network {
		if err := s.invite(o, pairing); err != nil {
			return nil, errors.Join(err, l.Close())
		}
	}
	for _, f := range o.Follow {
		s.follow[f.Job] = newFollower(f, o.Desk)
	}
	s.handler = s.routes()
	return s, nil
}

// listen takes the address: of the loopback, unless the network is asked for; there the
// port of last time, if it is free.
func listen(o Options, port int) (net.Listener, error) {
	at := o.Listen
	switch {
	case at == "" && o.Network:
		if l, err := net.Listen("tcp", fmt.Sprintf(":%d", port)); err == nil {
			return l, nil
		}
		at = ":0"
	case at == "":
		at = "127.0.0.1:0"
	case !o.Network && !loopback(at):
		return nil, fmt.Errorf("listening at %s: want an address of this computer alone, such as 127.0.0.1:0", at)
	}
	l, err := net.Listen("tcp", at)
	if err != nil {
		return nil, fmt.Errorf("listening: %w", err)
	}
	return l, nil
}

// URL is where the page is on this computer.
func (s *Server) URL() string {
	addr := s.listener.Addr().String()
	if s.network != nil && s.secure == nil {
		addr = net.JoinHostPort("127.0.0.1", s.network.port)
	}
	return "http://" + addr + "/"
}

// JobURL is where a job is on this computer.
func (s *Server) JobURL(id string) string { return s.URL() + "job/" + id }

// Handler is everything that Run serves, for tests.
func (s *Server) Handler() http.Handler { return s.handler }

// Close lets go of the address of a server that was never run.
func (s *Server) Close() error {
	if s.secure != nil {
		return errors.Join(s.secure.Close(), s.listener.Close())
	}
	return s.listener.Close()
}

// Run serves until ctx ends, then lets requests under way finish. It may be called once.
func (s *Server) Run(ctx context.Context) error {
	web := &http.Server{
		Handler:           s.handler,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second, // pictures and files take their own
		// No WriteTimeout: an event stream stays open; other answers are written at once.
		IdleTimeout:    60 * time.Second,
		MaxHeaderBytes: 16 << 10,
	}
	following, stopFollowing := context.WithCancel(ctx)
	var followers sync.WaitGroup
	for _, f := range s.follow {
		followers.Go(func() { f.run(following, s.poll) })
	}
	served := make(chan error, 2)
	serving := 1
	go func() { served <- web.Serve(s.listener) }()
	if s.secure != nil {
		serving++
		go func() { served <- web.Serve(s.secure) }()
	}

	var err error
	select {
	case err = <-served:
		serving--
		err = errors.Join(err, web.Close()) // one address is gone: the other is let go too
	case <-ctx.Done():
		close(s.ending)
		last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
		err = web.Shutdown(last)
		cancel()
	}
	for range serving {
		<-served
	}
	stopFollowing()
	followers.Wait()
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// answers are the resources that tell of a job what was worked out.
func (s *Server) answers(mux *http.ServeMux) {
	mux.HandleFunc("GET /api/jobs/{job}/scene", s.getScene)
	mux.HandleFunc("GET /api/jobs/{job}/outlets", s.getOutlets)
	mux.HandleFunc("GET /api/jobs/{job}/outlets/{id}/path", s.getPath)
	mux.HandleFunc("GET /api/jobs/{job}/things/{id}", s.getThing)
	mux.HandleFunc("GET /api/jobs/{job}/things/{id}/typed", s.getTyped)
	mux.HandleFunc("GET /api/jobs/{job}/findings", s.getFindings)
	mux.HandleFunc("GET /api/jobs/{job}/questions", s.getQuestions)
	mux.HandleFunc("GET /api/jobs/{job}/purchase", s.getPurchase)
	mux.HandleFunc("GET /api/jobs/{job}/quote", s.getQuote)
	mux.HandleFunc("GET /api/jobs/{job}/lists/{list}", s.getList)
	mux.HandleFunc("POST /api/jobs/{job}/pricelist", s.postPriceList)
	mux.HandleFunc("POST /api/jobs/{job}/prices", s.postPrices)
	mux.HandleFunc("GET /api/jobs/{job}/days", s.getDays)
	mux.HandleFunc("GET /api/jobs/{job}/days/first/{hour}", s.getHour)
	mux.HandleFunc("GET /api/jobs/{job}/water", s.getWater)
	mux.HandleFunc("GET /api/jobs/{job}/hold", s.getHold)
	mux.HandleFunc("GET /api/jobs/{job}/weak", s.getWeak)
	mux.HandleFunc("GET /api/jobs/{job}/cost", s.getCost)
	mux.HandleFunc("GET /api/jobs/{job}/build", s.getBuild)
	mux.HandleFunc("GET /api/jobs/{job}/prove", s.getProve)
	mux.HandleFunc("POST /api/jobs/{job}/decay", s.postDecay)
	mux.HandleFunc("GET /api/jobs/{job}/keep", s.getKeep)
	mux.HandleFunc("GET /api/jobs/{job}/upkeep.ics", s.getCalendar)
	mux.HandleFunc("POST /api/jobs/{job}/records", s.postRecords)
	mux.HandleFunc("GET /api/jobs/{job}/charts/{chart}", s.getChart)
	mux.HandleFunc("GET /api/jobs/{job}/catalogue", s.getJobCatalogue)
	mux.HandleFunc("GET /api/jobs/{job}/sheets", s.getSheets)
	mux.HandleFunc("GET /api/jobs/{job}/sheets/{sheet}", s.getLeaf)
	mux.HandleFunc("GET /api/jobs/{job}/book/{file}", s.getBook)
}

// routes is the list of what is served: one line a resource.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /api/jobs", s.getJobs)
	mux.HandleFunc("POST /api/jobs", s.postJobs)
	mux.HandleFunc("GET /api/jobs/{job}", s.getJob)
	mux.HandleFunc("DELETE /api/jobs/{job}", s.deleteJob)
	mux.HandleFunc("POST /api/jobs/{job}/restore", s.restoreJob)

	mux.HandleFunc("GET /api/jobs/{job}/live", s.getLive)
	mux.HandleFunc("POST /api/jobs/{job}/steps", s.postStep)
	mux.HandleFunc("POST /api/jobs/{job}/undo", s.postUndo)
	mux.HandleFunc("POST /api/jobs/{job}/redo", s.postRedo)
	mux.HandleFunc("POST /api/jobs/{job}/goto", s.postGoTo)
	mux.HandleFunc("POST /api/jobs/{job}/adopt", s.postAdopt)
	mux.HandleFunc("GET /api/jobs/{job}/events", s.getEvents)
	mux.HandleFunc("GET /api/jobs/{job}/history", s.getHistory)
	mux.HandleFunc("GET /api/jobs/{job}/compare", s.getCompare)
	mux.HandleFunc("POST /api/jobs/{job}/proposals", s.postProposals)
	mux.HandleFunc("POST /api/jobs/{job}/extensions", s.postExtensions)
	mux.HandleFunc("POST /api/jobs/{job}/calibration", s.postCalibration)

	s.answers(mux)

	mux.HandleFunc("GET /api/jobs/{job}/file", s.getFile)
	mux.HandleFunc("GET /api/jobs/{job}/thumb.svg", s.getThumb)
	mux.HandleFunc("GET /api/jobs/{job}/pictures", s.getPictures)
	mux.HandleFunc("GET /api/jobs/{job}/pictures/{name}", s.getPicture)
	mux.HandleFunc("PUT /api/jobs/{job}/pictures/{name}", s.putPicture)

	mux.HandleFunc("GET /api/examples/{name}/thumb.svg", s.getExampleThumb)
	mux.HandleFunc("GET /api/catalogue", s.getCatalogue)
	mux.HandleFunc("GET /api/start", s.getStart)
	mux.HandleFunc("GET /api/quantity", s.getQuantity)
	mux.HandleFunc("GET /api/share", s.getShare)
	mux.HandleFunc("POST /api/enter", s.postEnter)
	mux.HandleFunc("GET /certificate.crt", s.getCertificate)
	mux.HandleFunc("/api/", func(w http.ResponseWriter, r *http.Request) {
		fail(w, http.StatusNotFound, "there is no such resource", clip(r.Method+" "+r.URL.Path))
	})
	mux.Handle("/", page(web.Files()))
	return s.guarded(mux)
}
