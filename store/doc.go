// Package store keeps parties in one SQLite file. It is the only package that speaks SQL.
package store
