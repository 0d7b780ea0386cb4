export declare function drawPattern(): string;
