//! A table of proportions of one's own.

use crate::view::words::spoken;

spoken! {
    NAME = "Name", "Nom", "Name";
    SOURCE = "Where it is from", "D’où elle vient", "Woher sie ist";
    HINT = "Each letter with its count, such as A15 B6 C10; only how they stand to each other matters. What is left empty is the printed job fount's. It is offered where a bill is made by scheme.",
        "Chaque lettre avec son nombre, tel que A15 B6 C10 ; seul compte leur rapport entre elles. Ce qui reste vide est de la police de labeur imprimée. Elle est offerte là où une liste se fait par police.",
        "Jeder Buchstabe mit seiner Zahl, etwa A15 B6 C10; nur wie sie zueinander stehen, zählt. Was leer bleibt, ist von der gedruckten Akzidenzschrift. Sie wird angeboten, wo Lettern nach Gießzettel bestellt werden.";
}
