package standin

import (
	"fmt"
	"net/http"
	"strings"
	"time"
)

// Fault makes requests fail. The first that fits is used, as often as it says.
type Fault struct {
	Method string // empty: any
	Route  string // as "/channels/:/messages"; empty: any
	Times  int    // how often
	Status int    // what to answer; 0 closes the connection without an answer
	Body   string // empty: an error in the platform's words; HTML where it begins with "<"
	After  bool   // do what was asked, and only then fail
	Delay  time.Duration
	Retry  time.Duration // for 429: when to try again
	Global bool          // for 429: everything is blocked until then
}

// Break adds a fault.
func (s *Server) Break(f Fault) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if f.Times == 0 {
		f.Times = 1
	}
	s.faults = append(s.faults, &f)
}

// limit is how many requests a route takes in a window.
type limit struct {
	most   int
	window time.Duration
	left   int
	reset  time.Time
}

// Limit sets a route's rate limit; its answers carry the platform's headers.
func (s *Server) Limit(method, route string, most int, window time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.limits[method+" "+route] = &limit{most: most, window: window}
}

// fault finds a fault for a request, and uses it up.
func (s *Server) fault(method, route string) *Fault {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, f := range s.faults {
		if f.Times > 0 && (f.Method == "" || f.Method == method) && (f.Route == "" || f.Route == route) {
			f.Times--
			if f.Global {
				s.blockedUntil = time.Now().Add(f.Retry)
			}
			return f
		}
	}
	return nil
}

// answer writes what a fault says.
func (f *Fault) answer(w http.ResponseWriter) {
	if f.Status == 0 {
		panic(http.ErrAbortHandler)
	}
	if f.Status == http.StatusTooManyRequests && f.Body == "" {
		tooMany(w, f.Retry, f.Global)
		return
	}
	body := f.Body
	if body == "" {
		body = fmt.Sprintf(`{"message": "%d: %s", "code": 0}`, f.Status, http.StatusText(f.Status))
	}
	if strings.HasPrefix(body, "<") {
		w.Header().Set("Content-Type", "text/html")
	} else {
		w.Header().Set("Content-Type", "application/json")
	}
	if f.Retry > 0 {
		w.Header().Set("Retry-After", seconds(f.Retry))
	}
	w.WriteHeader(f.Status)
	fmt.Fprint(w, body)
}

func seconds(d time.Duration) string { return fmt.Sprintf("%.3f", d.Seconds()) }

// tooMany answers 429. A global one has no Reset-After.
func tooMany(w http.ResponseWriter, retry time.Duration, global bool) {
	h := w.Header()
	h.Set("Retry-After", seconds(retry))
	if global {
		h.Set("X-RateLimit-Global", "true")
		h.Set("X-RateLimit-Scope", "global")
	} else {
		h.Set("X-RateLimit-Scope", "user")
		h.Set("X-RateLimit-Remaining", "0")
		h.Set("X-RateLimit-Reset-After", seconds(retry))
	}
	writeJSON(w, http.StatusTooManyRequests, map[string]any{"message": "You are being rate limited.",
		"retry_after": retry.Seconds(), "global": global})
}

// limited applies rate limits and reports whether it has answered. Interactions are exempt from the global one.
func (s *Server) limited(w http.ResponseWriter, method, route, major string, exempt bool) bool {
	s.mu.Lock()
	now := time.Now()
	if wait := s.blockedUntil.Sub(now); wait > 0 && !exempt {
		s.mu.Unlock()
		tooMany(w, wait, true)
		return true
	}
	set := s.limits[method+" "+route]
	if set == nil {
		s.mu.Unlock()
		return false
	}
	l := s.limits[method+" "+route+" "+major]
	if l == nil {
		l = &limit{most: set.most, window: set.window}
		s.limits[method+" "+route+" "+major] = l
	}
	if now.After(l.reset) {
		l.left, l.reset = l.most, now.Add(l.window)
	}
	wait := l.reset.Sub(now)
	if l.left == 0 {
		s.mu.Unlock()
		w.Header().Set("X-RateLimit-Bucket", "bucket-"+method+strings.ReplaceAll(route, "/", "-"))
		tooMany(w, wait, false)
		return true
	}
	l.left--
	h := w.Header()
	h.Set("X-RateLimit-Bucket", "bucket-"+method+strings.ReplaceAll(route, "/", "-"))
	h.Set("X-RateLimit-Limit", fmt.Sprint(l.most))
	h.Set("X-RateLimit-Remaining", fmt.Sprint(l.left))
	h.Set("X-RateLimit-Reset", fmt.Sprintf("%.3f", float64(l.reset.UnixMilli())/1000))
	h.Set("X-RateLimit-Reset-After", seconds(wait))
	s.mu.Unlock()
	return false
}
