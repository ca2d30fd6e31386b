//! How a hand-out looks, and what it says to whoever practises from it.

/// Looks of the page. Sizes are in points, so that paper is what they are made for; on a narrow screen there is
/// one column.
pub(super) const LOOKS: &str = "\
body{font:11pt/1.35 sans-serif;color:#000;background:#fff;margin:0 auto;padding:4mm;max-width:190mm}\
h1{font-size:20pt;line-height:1.15;margin:0 0 1mm}\
h2{font-size:13pt;margin:5mm 0 1.5mm;border-bottom:.4mm solid;break-after:avoid}\
p{margin:0 0 1.5mm}\
.facts{display:flex;flex-wrap:wrap;gap:0 6mm;margin:0;padding:0;list-style:none}\
.figures{margin:0;padding:0;list-style:none;columns:2;column-gap:8mm}\
.figures li{break-inside:avoid;margin:0 0 1mm}\
.dance+.dance{break-before:page}\
.section{break-inside:avoid;margin:0 0 4mm}\
.section h3{font-size:12pt;margin:3mm 0 0}\
.plans{display:flex;flex-wrap:wrap;gap:2mm 6mm;align-items:flex-start}\
.plans svg{display:block;flex:none;max-width:100%;height:auto}\
.legend svg{display:block;width:100%;height:auto}\
.words{flex:1 1 58mm}\
.calls{font-style:italic;margin:1mm 0}\
.steps{margin:1mm 0 0;padding:0;list-style:none;columns:52mm;column-gap:4mm;line-height:1.3}\
.steps li{padding-left:14.5mm;text-indent:-14.5mm;margin:.6mm 0;break-inside:avoid}\
.steps b{display:inline-block;width:8mm;text-indent:0}\
.steps i{display:inline-block;width:4mm;margin-right:2mm;text-indent:0;text-align:center;font:bold 9pt sans-serif;\
border:.3mm solid}\
.steps i.right{background:#000;color:#fff;border-color:#000;print-color-adjust:exact;-webkit-print-color-adjust:exact}\
.steps i.free{background:none;color:#000;border-style:dashed}\
.steps i.none{border-color:transparent}\
.legend,.cautions,.figures-box{break-inside:avoid}\
.cautions p{font-size:10pt}\
@media screen and (max-width:560px){.figures,.steps{columns:1}}\
@media print{body{padding:0;max-width:none}}";

/// Cautions for whoever practises from the page. They follow from what is known about soles, floors, turns and
/// falls (check values, section 17) and promise nothing.
pub(super) const CAUTIONS: [&str; 5] = [
    "This page was worked out on paper. It knows neither you nor your shoes nor your floor, and it cannot tell \
     you that a step is right for your body.",
    "Begin with a few minutes of gentle movement and let the evening end just as gently.",
    "In a turn, stand over the ball of the foot and take the foot round with you: if the foot sticks while you go \
     on, the knee is twisted. Clinging soles, and floors that are sticky, wet, rough or sloping, make that likelier; \
     a smooth sole on a clean, even floor is kinder. Mark stomps and jumps softly or leave them out, above all on \
     concrete. If turning makes you dizzy, look at one fixed spot, turn less, or walk it.",
    "Speak with a doctor or a physiotherapist first if you are pregnant, unsteady, have fallen lately, or have \
     trouble with heart, joints, balance or eyes. Keep a chair or a wall within reach and take the easier step.",
    "In the hall its own rules hold, and the teacher in the room decides what is right for the class.",
];
