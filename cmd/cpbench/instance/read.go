package instance

import (
	"bufio"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// Error is a fault in a file, at a line counted from 1.
type Error struct {
	Name   string
	Line   int
	Reason string
}

func (e *Error) Error() string { return fmt.Sprintf("%s:%d: %s", e.Name, e.Line, e.Reason) }

// maxActivities and maxNumber keep a malformed file from asking for absurd amounts of memory or time.
const (
	maxActivities = 10_000
	maxNumber     = 1_000_000
)

// Read reads a file by the end of its name, .sm or .sch in any case. A fault comes back as *Error.
func Read(r io.Reader, name string) (*Instance, error) {
	s := &scanner{lines: bufio.NewScanner(r), name: name}
	base := path.Base(name)
	ext := path.Ext(base)
	in := &Instance{Name: strings.TrimSuffix(base, ext)}
	var err error
	switch strings.ToLower(ext) {
	case ".sm":
		err = s.catch(func() { s.readSM(in) })
	case ".sch":
		err = s.catch(func() { s.readSCH(in) })
	default:
		err = &Error{name, 0, "neither .sm nor .sch"}
	}
	if err == nil {
		if fault := in.Problem().Validate(); fault != nil {
			err = &Error{name, s.line, fault.Error()} // sums of the figures are too large
		}
	}
	if err != nil {
		return nil, err
	}
	return in, nil
}

// scanner reads lines of numbers. Its methods fail by panicking with *Error, which catch turns into a return.
type scanner struct {
	lines *bufio.Scanner
	name  string
	line  int
}

func (s *scanner) catch(f func()) (err error) {
	defer func() {
		if r := recover(); r != nil {
			fault, ok := r.(*Error)
			if !ok {
				panic(r)
			}
			err = fault
		}
	}()
	f()
	return nil
}

func (s *scanner) fail(format string, args ...any) {
	panic(&Error{s.name, s.line, fmt.Sprintf(format, args...)})
}

// next is the next line that is not blank; more is false at the end of the file.
func (s *scanner) next() (line string, more bool) {
	for s.lines.Scan() {
		s.line++
		if line = strings.TrimSpace(s.lines.Text()); line != "" {
			return line, true
		}
	}
	if err := s.lines.Err(); err != nil {
		s.fail("%v", err)
	}
	return "", false
}

// fields are the fields of the next line; want says what is expected there.
func (s *scanner) fields(want string) []string {
	line, more := s.next()
	if !more {
		s.fail("the file ends where %s should stand", want)
	}
	return strings.Fields(line)
}

func (s *scanner) number(field, what string) int {
	v, err := strconv.Atoi(field)
	if err != nil {
		s.fail("%s: %q is not a whole number", what, field)
	}
	if v < -maxNumber || v > maxNumber {
		s.fail("%s: %d is too large", what, v)
	}
	return v
}

// count is a number that may not be negative.
func (s *scanner) count(field, what string) int {
	v := s.number(field, what)
	if v < 0 {
		s.fail("%s: %d is negative", what, v)
	}
	return v
}

// activity is a number of an activity between first and first+n−1, returned from 0.
func (s *scanner) activity(field string, first, n int) int {
	v := s.number(field, "activity")
	if v < first || v >= first+n {
		s.fail("no activity %d (there are %d to %d)", v, first, first+n-1)
	}
	return v - first
}

// usage reads the durations and demands of n activities: id, mode, duration, demands.
func (s *scanner) usage(in *Instance, first, n, resources int) {
	in.Duration = make([]int, n)
	in.Demand = make([][]int, n)
	for i := range n {
		f := s.fields("an activity's duration and demands")
		if len(f) != 3+resources {
			s.fail("%d fields instead of %d: activity, mode, duration, %d demands", len(f), 3+resources, resources)
		}
		if id := s.activity(f[0], first, n); id != i {
			s.fail("activity %s out of order", f[0])
		}
		in.Duration[i] = s.count(f[2], "duration")
		for _, d := range f[3:] {
			in.Demand[i] = append(in.Demand[i], s.count(d, "demand"))
		}
	}
}

func (s *scanner) capacities(in *Instance, f []string) {
	for _, c := range f {
		in.Capacity = append(in.Capacity, s.count(c, "capacity"))
	}
}

// singleMode refuses projects whose activities have several modes.
func (s *scanner) singleMode(field string) {
	if m := s.number(field, "modes"); m != 1 {
		s.fail("%d modes; only one is supported", m)
	}
}
