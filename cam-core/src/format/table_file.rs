//! The maker's own tables of proportions in the workshop file.

use serde::{Deserialize, Serialize};

use crate::bill::OwnTable;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FileTable {
    name: String,
    #[serde(default)]
    source: String,
    #[serde(default)]
    capitals: String,
    #[serde(default)]
    lower_case: String,
    #[serde(default)]
    figures: String,
    #[serde(default)]
    points: String,
    #[serde(default)]
    ligatures: String,
}

impl FileTable {
    pub(super) fn into_model(self) -> OwnTable {
        OwnTable {
            name: self.name,
            source: self.source,
            capitals: self.capitals,
            lower_case: self.lower_case,
            figures: self.figures,
            points: self.points,
            ligatures: self.ligatures,
        }
    }

    pub(super) fn of(table: &OwnTable) -> FileTable {
        let table = table.clone();
        FileTable {
            name: table.name,
            source: table.source,
            capitals: table.capitals,
            lower_case: table.lower_case,
            figures: table.figures,
            points: table.points,
            ligatures: table.ligatures,
        }
    }
}
