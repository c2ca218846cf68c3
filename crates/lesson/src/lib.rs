//! Words for people, and the shape of every answer.
