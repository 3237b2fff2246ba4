//! Records are types of their own, so that a change in the grower's world does not silently change the disk.
//!
//! A record lists the fields of the type it mirrors once more; leave one out, or rename it on one side only,
//! and the conversion no longer compiles. What the list says about serde is the format on disk.

use chrono::{DateTime, NaiveDate, NaiveTime, Utc};

use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::season::journal::LineNumber;
use crate::units::{
    Celsius, Days, Fraction, Hours, Kilograms, Litres, Metres, MetresPerSecond, Millimetres, Position,
    Probability, RelativeHumidity, WattsPerSquareMetre,
};

/// What has a form on disk.
pub(in crate::store) trait Recorded: Sized {
    type Record;

    fn to_record(&self) -> Self::Record;

    fn of_record(record: Self::Record) -> Self;
}

/// Bare values: a number, a name, a time is its own record.
macro_rules! bare {
    ($($of:ty),+ $(,)?) => {$(
        impl Recorded for $of {
            type Record = $of;

            fn to_record(&self) -> $of {
                self.clone()
            }

            fn of_record(record: $of) -> $of {
                record
            }
        }
    )+};
}
bare!(bool, u8, u32, u64, i32, f64, String, DateTime<Utc>, NaiveDate, NaiveTime);
bare!(EventId, GardenId, PersonId, RoomId);
bare!(Celsius, Days, Fraction, Hours, Kilograms, Litres, Metres, MetresPerSecond, Millimetres, Position);
bare!(Probability, RelativeHumidity, WattsPerSquareMetre);

impl Recorded for LineNumber {
    type Record = u64;

    fn to_record(&self) -> u64 {
        self.0
    }

    fn of_record(record: u64) -> Self {
        LineNumber(record)
    }
}

impl<T: Recorded> Recorded for Option<T> {
    type Record = Option<T::Record>;

    fn to_record(&self) -> Self::Record {
        self.as_ref().map(T::to_record)
    }

    fn of_record(record: Self::Record) -> Self {
        record.map(T::of_record)
    }
}

impl<T: Recorded> Recorded for Vec<T> {
    type Record = Vec<T::Record>;

    fn to_record(&self) -> Self::Record {
        self.iter().map(T::to_record).collect()
    }

    fn of_record(record: Self::Record) -> Self {
        record.into_iter().map(T::of_record).collect()
    }
}

macro_rules! record_struct {
    ($(#[$meta:meta])* $record:ident = $of:ident {
        $($(#[$field_meta:meta])* $field:ident: $type:ty),+ $(,)?
    }) => {
        #[derive(serde::Deserialize, serde::Serialize)]
        $(#[$meta])*
        pub(in crate::store) struct $record {
            $($(#[$field_meta])* $field: <$type as Recorded>::Record),+
        }

        impl Recorded for $of {
            type Record = $record;

            fn to_record(&self) -> $record {
                $record { $($field: self.$field.to_record()),+ }
            }

            fn of_record(record: $record) -> Self {
                $of { $($field: Recorded::of_record(record.$field)),+ }
            }
        }
    };
}

/// Variants are written bare, with named fields, or with one value, which is given a name: `Tree(details: T)`.
macro_rules! record_enum {
    ($(#[$meta:meta])* $record:ident = $of:ident {
        $(
            $(#[$variant_meta:meta])*
            $variant:ident
            $({ $($(#[$field_meta:meta])* $field:ident: $type:ty),+ $(,)? })?
            $(($value:ident: $inner:ty))?
        ),+ $(,)?
    }) => {
        #[derive(serde::Deserialize, serde::Serialize)]
        #[serde(rename_all = "snake_case")]
        $(#[$meta])*
        pub(in crate::store) enum $record {
            $(
                $(#[$variant_meta])*
                $variant
                $({ $($(#[$field_meta])* $field: <$type as Recorded>::Record),+ })?
                $((<$inner as Recorded>::Record))?
            ),+
        }

        #[cfg(test)]
        impl $record {
            /// So that the tests can see that each has an example.
            pub(in crate::store) const VARIANTS: &[&str] = &[$(stringify!($variant)),+];
        }

        impl Recorded for $of {
            type Record = $record;

            fn to_record(&self) -> $record {
                match self {
                    $(
                        $of::$variant $({ $($field),+ })? $(($value))? =>
                            $record::$variant $({ $($field: $field.to_record()),+ })? $(($value.to_record()))?
                    ),+
                }
            }

            fn of_record(record: $record) -> Self {
                match record {
                    $(
                        $record::$variant $({ $($field),+ })? $(($value))? =>
                            $of::$variant
                            $({ $($field: Recorded::of_record($field)),+ })?
                            $((Recorded::of_record($value)))?
                    ),+
                }
            }
        }
    };
}

pub(super) use {record_enum, record_struct};
