package server

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"dropleg/web"
)

// Server shows one job.
type Server struct {
	watch    *watch
	listener net.Listener
	handler  http.Handler
	ending   chan struct{} // closed when Run ends: event streams let go
}

// New takes the address and makes everything ready; the job is read when it is
// first asked for. The caller must Run it, or Close it.
func New(o Options) (*Server, error) {
	if o.Source == nil {
		return nil, errors.New("there is no job to show")
	}
	listen := o.Listen
	if listen == "" {
		listen = "127.0.0.1:0"
	}
	if !loopback(listen) {
		return nil, fmt.Errorf("listening at %s: want an address of this computer alone, such as 127.0.0.1:0", listen)
	}
	l, err := net.Listen("tcp", listen)
	if err != nil {
		return nil, fmt.Errorf("listening: %w", err)
	}
	s := &Server{watch: newWatch(o.Source, o.Poll), listener: l, ending: make(chan struct{})}
	s.handler = s.routes()
	return s, nil
}

// URL is where the page is.
func (s *Server) URL() string { return "http://" + s.listener.Addr().String() + "/" }

// Handler is everything that Run serves, for tests.
func (s *Server) Handler() http.Handler { return s.handler }

// Close lets go of the address of a server that was never run.
func (s *Server) Close() error { return s.listener.Close() }

// Run serves until ctx ends, then lets requests under way finish. It may be called once.
func (s *Server) Run(ctx context.Context) error {
	web := &http.Server{
		Handler:           s.handler,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		// No WriteTimeout: an event stream stays open; other answers are written at once.
		IdleTimeout:    60 * time.Second,
		MaxHeaderBytes: 16 << 10,
	}
	watching, stopWatching := context.WithCancel(ctx)
	watched := make(chan struct{})
	go func() {
		defer close(watched)
		s.watch.run(watching)
	}()
	served := make(chan error, 1)
	go func() { served <- web.Serve(s.listener) }()

	var err error
	select {
	case err = <-served:
	case <-ctx.Done():
		close(s.ending)
		last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
		err = web.Shutdown(last)
		cancel()
		<-served
	}
	stopWatching()
	<-watched
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// routes is the list of what is served: one line a resource.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /api/job", s.getJob)
	mux.HandleFunc("GET /api/scene", s.getScene)
	mux.HandleFunc("GET /api/outlets", s.getOutlets)
	mux.HandleFunc("GET /api/outlets/{id}/path", s.getPath)
	mux.HandleFunc("GET /api/things/{id}", s.getThing)
	mux.HandleFunc("GET /api/findings", s.getFindings)
	mux.HandleFunc("GET /api/questions", s.getQuestions)
	mux.HandleFunc("GET /api/parts", s.getParts)
	mux.HandleFunc("GET /api/events", s.getEvents)
	mux.HandleFunc("GET /api/", func(w http.ResponseWriter, r *http.Request) {
		fail(w, http.StatusNotFound, "there is no such resource", clip(r.URL.Path))
	})
	mux.Handle("GET /", page(web.Files()))
	return guarded(mux)
}
